/** What is asked and told of the hands: doubtful passages, a line in the left hand, a line that both share. */
import { describe, expect, it, test } from "vitest";
import { DOUBTFUL, doubtfulPassages } from "../../src/parting/doubtful.ts";
import { partByPath, partHands } from "../../src/parting/part-hands.ts";
import type { Note } from "../../src/take/index.ts";
import { MEETINGS, meetingHands } from "../hands/meeting-hands.ts";
import { doubtFigures, hasStaffScores } from "./doubt-figures.ts";
import { openTake, takeOf } from "./open-take.ts";

const OPEN = { soloPart: null, soloStaff: null, soloHand: null };
const codes = (notes: readonly Partial<Note>[], soloHand: "left" | "right" | "both" | null = null) =>
  partHands(openTake(notes), { ...OPEN, soloHand }).warnings.map(({ code }) => code);

describe("a take in another key or played softer", () => {
  // A hand is where it is on the keyboard by its distance to the other: moving both by the same interval, up to an
  // octave, moves no note from hand to hand, and nor does loudness. [practice] 42 takes, every interval both ways.
  const takes = MEETINGS.flatMap((kind) =>
    [601, 602, 603, 604, 605, 606, 607].map((seed) => ({ kind, seed, ...meetingHands(kind, seed) })),
  );
  test.each(MEETINGS)("has the same hands: %s", (kind) => {
    for (const [k, { notes, seed }] of takes.filter((take) => take.kind === kind).entries()) {
      const plain = [...partByPath(notes).right];
      const interval = 1 + ((k * 5 + MEETINGS.indexOf(kind)) % 12);
      for (const semitones of [interval, -interval]) {
        const moved = notes.map((note) => ({ ...note, pitch: note.pitch + semitones }));
        expect([...partByPath(moved).right], `${seed} moved by ${semitones}`).toEqual(plain);
      }
      const softer = notes.map((note) => ({
        ...note,
        velocity: Math.max(1, Math.round(0.6 * note.velocity)),
      }));
      expect([...partByPath(softer).right], `${seed} softer`).toEqual(plain);
    }
  });
});

describe("a passage in which the hands cross", () => {
  it("is told as doubtful, with its place", () => {
    // Two voices that pass through each other on the same keys with the same lengths: by their sound alone nobody can
    // say which hand goes on. [practice]
    const crossing = Array.from({ length: 24 }, (_, i) => [
      { pitch: 48 + i, onset: i * 0.25, duration: 0.2 },
      { pitch: 71 - i, onset: i * 0.25 + 0.12, duration: 0.2 },
    ]).flat();
    const apart = Array.from({ length: 40 }, (_, i) => ({
      pitch: i % 2 === 0 ? 40 + (i % 5) : 79 + (i % 4),
      onset: 8 + i * 0.2,
      duration: i % 2 === 0 ? 0.39 : 0.3,
    }));
    const notes = [...crossing, ...apart];
    const { warnings } = partHands(openTake(notes), { ...OPEN, soloHand: "both" });
    const told = warnings.find(({ code }) => code === "hands-doubtful");
    expect(told?.where).toMatch(/^0:0[0-6] to 0:0[3-7]/);
    expect(told?.message).toContain("other hand");
  });

  it("is a stretch of low margins, not one note", () => {
    const row = (margins: readonly number[]) =>
      margins.map((margin, i) => ({
        ...{ onset: i, pitch: 60, margin },
        hand: i % 2 === 0 ? ("left" as const) : ("right" as const),
      }));
    const sure = new Array(20).fill(1);
    expect(doubtfulPassages(row([...sure, 0, ...sure]))).toEqual([]);
    expect(doubtfulPassages(row([...sure, ...new Array(20).fill(DOUBTFUL - 0.1), ...sure]))).toHaveLength(1);
    expect(doubtfulPassages(row(new Array(40).fill(DOUBTFUL + 0.01)))).toEqual([]);
  });

  // A hand that lies still gets to the keys within a sixth of it at once [practice]; a line that is handed on across a
  // wider gap is played by the hand in whose half it lies, however cheap a longer reach would be.
  it("is not one that the hands share from either side of a gap wider than a sixth", () => {
    const handedOn = (gap: number) =>
      Array.from({ length: 32 }, (_, i) => {
        const left = Math.floor(i / 8) % 2 === 0;
        const [hand, pitch] = left
          ? (["left", 48 + (i % 8)] as const)
          : (["right", 55 + gap + (i % 8)] as const);
        return { onset: i * 0.25, duration: 0.2, margin: DOUBTFUL - 0.1, hand, pitch };
      });
    expect(doubtfulPassages(handedOn(8))).toHaveLength(1);
    expect(doubtfulPassages(handedOn(9))).toEqual([]);
    const traded = codes(handedOn(12), "both");
    expect(traded).toContain("line-shared");
    expect(traded).not.toContain("hands-doubtful");
  });

  // Scores of people's music beside the checkout, staff taken for hand: where doubt is told it is mostly worth telling,
  // and where none is told nearly all is right.
  it.skipIf(!hasStaffScores)("holds most of the notes that lie in the wrong hand", () => {
    const { wrongInside, wrongOutside, told } = doubtFigures();
    expect(wrongOutside).toBeLessThan(0.04);
    expect(wrongInside).toBeGreaterThan(5 * wrongOutside);
    expect(told).toBeLessThan(0.25);
  });

  it("is not told of hands that keep apart", () => {
    for (const seed of [1, 2, 3]) {
      expect(codes(meetingHands("walking", seed).notes, "both")).not.toContain("hands-doubtful");
    }
  });
});

describe("which hand carries the line", () => {
  const chord = (onset: number, keys: readonly number[]) =>
    keys.map((pitch) => ({ pitch, onset, duration: 1.8 }));
  const line = (low: number, from: number, step: number, count: number) =>
    Array.from({ length: count }, (_, i) => ({
      pitch: low + [0, 2, 4, 5, 7, 9, 7, 5, 4, 2][i % 10]!,
      onset: from + i * step,
      duration: step * 0.9,
    }));
  const inParts = (notes: readonly Partial<Note>[], names: readonly string[]) =>
    takeOf(
      names.map((name) => ({ id: name, name, staves: 1, program: 0, notes: notes.length })),
      notes,
    );
  const sorted = (notes: readonly Partial<Note>[]) => [...notes].sort((a, b) => a.onset! - b.onset!);
  const held = (keys: readonly number[]) => Array.from({ length: 8 }, (_, k) => chord(k * 2, keys)).flat();

  it("is asked where the left hand plays a line under chords", () => {
    expect(codes(sorted([...held([64, 67, 71]), ...line(36, 0.25, 0.25, 60)]))).toContain(
      "line-in-left-hand",
    );
  });

  it("is not asked where the line lies above the chords, nor once somebody has said it", () => {
    expect(codes(sorted([...held([48, 52, 55]), ...line(72, 0.25, 0.25, 60)]))).not.toContain(
      "line-in-left-hand",
    );
    const low = sorted([...held([64, 67, 71]), ...line(36, 0.25, 0.25, 60)]);
    expect(codes(low, "left")).not.toContain("line-in-left-hand");
  });

  it("is asked where hands have parts of their own, and the answer takes the lower one", () => {
    for (const [upper, lower] of [
      ["Right hand", "Left hand"],
      ["Track 1", "Track 2"],
      ["Track 2", "Track 1"],
    ]) {
      for (const keys of [
        [64, 67, 71],
        [76, 79, 83],
      ]) {
        const notes = sorted([
          ...held(keys).map((note) => ({ ...note, part: upper! })),
          ...line(36, 0.25, 0.25, 60).map((note) => ({ ...note, part: lower! })),
        ]);
        const take = inParts(notes, [upper!, lower!]);
        const asked = partHands(take, OPEN).warnings.map(({ code }) => code);
        expect(asked.filter((code) => code === "line-in-left-hand")).toHaveLength(1);
        const { hands, warnings } = partHands(take, { ...OPEN, soloHand: "left" });
        expect(warnings.map(({ code }) => code)).not.toContain("line-in-left-hand");
        take.notes.forEach((note, i) => {
          const isLine = note.part === lower;
          expect(hands[i]).toMatchObject({ solo: isLine, hand: isLine ? "left" : "right" });
        });
      }
    }
  });

  it("is not asked of a line in a part of its own above the chords", () => {
    const notes = sorted([
      ...held([48, 52, 55]).map((note) => ({ ...note, part: "chords" })),
      ...line(72, 0.25, 0.25, 60).map((note) => ({ ...note, part: "line" })),
    ]);
    const { warnings } = partHands(inParts(notes, ["line", "chords"]), OPEN);
    expect(warnings.map(({ code }) => code)).not.toContain("line-in-left-hand");
  });

  // The left hand's keys lie below middle C. [practice] In the fingered scores beside the checkout no right hand has
  // more than 28 in 100 of its notes there, so that three in four are the left hand's.
  it("is asked of a line alone of which three notes in four lie below middle C, and not of one with fewer there", () => {
    const alone = (low: number) =>
      Array.from({ length: 100 }, (_, i) => ({
        pitch: i < low ? 50 + (i % 8) : 60 + (i % 8),
        onset: i * 0.25,
        duration: 0.2,
      }));
    expect(codes(alone(76))).toContain("line-lies-low");
    expect(codes(alone(74))).not.toContain("line-lies-low");
    expect(codes(alone(28))).not.toContain("line-lies-low");
    expect(codes(line(36, 0, 0.25, 60), "right")).not.toContain("line-lies-low");
    // A few low notes are no line.
    expect(codes(line(36, 0, 0.25, 6))).not.toContain("line-lies-low");
  });

  it("is asked where one line leaps further than one hand gets to in the time", () => {
    // Every fourth note lies two octaves and more away, a tenth of a second after its neighbour: by a single hand
    // nobody plays that. [practice]
    const wide = Array.from({ length: 40 }, (_, i) => ({
      pitch: i % 4 === 3 ? 40 : 70 + (i % 3),
      onset: i * 0.1,
      duration: 0.09,
    }));
    expect(codes(wide)).toContain("line-for-two-hands");
    expect(codes(line(60, 0, 0.1, 40))).not.toContain("line-for-two-hands");
    const shared = partHands(openTake(wide), { ...OPEN, soloHand: "both" });
    expect(shared.warnings).toContainEqual(
      expect.objectContaining({
        code: "line-shared",
        message: expect.stringMatching(/30 notes in the right hand, 10 notes in the left/),
      }),
    );
    expect(shared.hands.every(({ solo }) => solo)).toBe(true);
  });
});
