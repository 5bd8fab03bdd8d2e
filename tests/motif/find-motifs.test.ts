import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { motifSchema } from "../../src/account.ts";
import { DEGREES } from "../../src/chart/index.ts";
import { findMotifs, findSharedMotifs } from "../../src/motif/index.ts";
import { melodicLine } from "../../src/take/index.ts";
import { even, type PlayedNote, played } from "../rhythm/played.ts";
import { generator, type PlantedShape, plantedTake } from "./planted.ts";

const OPTIONS = { seed: 1 };

/** A leaping idea of eight notes that no scale gives. */
const IDEA = [60, 67, 63, 70, 64, 72, 65, 61];

/** Chance notes between the statements of an idea, none twice alike. */
function between(seed: number, count: number): number[] {
  const random = generator(seed);
  let pitch = 66;
  return Array.from({ length: count }, () => {
    pitch += (1 + Math.floor(random() * 5)) * (random() < (pitch - 50) / 30 ? -1 : 1);
    return pitch;
  });
}

/** Statements with chance notes between them, in eighths; a statement may bring its own rhythm. */
function solo(statements: readonly (readonly number[] | readonly PlayedNote[])[], gap = 14) {
  const notes: PlayedNote[] = [];
  let at = 0;
  statements.forEach((statement, i) => {
    for (const note of even(between(i + 1, gap), at, 0.5)) notes.push(note);
    at += gap / 2;
    const own =
      typeof statement[0] === "number"
        ? even(statement as number[], 0, 0.5)
        : (statement as readonly PlayedNote[]);
    for (const note of own) notes.push({ ...note, at: at + note.at });
    const last = own[own.length - 1]!;
    at = Math.ceil((at + last.at + last.beats) * 2) / 2;
  });
  return played(notes, { bars: 12 });
}

const up = (semitones: number) => IDEA.map((pitch) => pitch + semitones);

function firstIdea(statements: Parameters<typeof solo>[0]) {
  const motifs = findMotifs(solo(statements), OPTIONS);
  expect(motifs.length).toBeGreaterThan(0);
  return motifs[0]!;
}

describe("an idea that returns", () => {
  it("is told once, with its places, and as exact or transposed", () => {
    const motif = firstIdea([IDEA, up(5), IDEA, up(-3)]);
    expect(motif.length).toBe(8);
    expect(motif.viewpoint).toBe("interval and rhythm");
    expect(motif.occurrences.map((o) => [o.firstNote, o.lastNote, o.relation, o.transposition])).toEqual([
      ["n15", "n22", "exact", 0],
      ["n37", "n44", "transposed", 5],
      ["n59", "n66", "exact", 0],
      ["n81", "n88", "transposed", -3],
    ]);
    expect(motif.q).toBeLessThan(0.001);
    expect(motif.expected).toBeLessThan(0.1);
    expect(motif.coverage).toBeCloseTo(32 / 88, 5);
    expect(motif.compactness).toBe(1);
  });

  it("in another rhythm, or at half the speed, is the same idea and says so", () => {
    const slow = even(up(2), 0, 1);
    const free = up(4).map((pitch, i) => ({ pitch, at: [0, 1, 1.5, 2.5, 3, 5, 5.5, 6][i]!, beats: 0.4 }));
    const motif = firstIdea([IDEA, IDEA, slow, free]);
    expect(motif.occurrences.map((o) => o.change)).toEqual(["", "", "augmented", "in another rhythm"]);
    const quick = firstIdea([IDEA, IDEA, even(IDEA, 0, 0.25), up(2)]);
    expect(quick.occurrences.map((o) => o.change)).toEqual(["", "", "diminished", ""]);
  });

  it("with one note changed, added or left out is varied, and says which", () => {
    const changed = IDEA.with(3, 69);
    const added = IDEA.toSpliced(4, 0, 66);
    const dropped = IDEA.toSpliced(5, 1);
    const motif = firstIdea([IDEA, IDEA, changed, added, dropped, up(7)]);
    expect(motif.occurrences.map((o) => [o.relation, o.change, o.notes])).toEqual([
      ["exact", "", 8],
      ["exact", "", 8],
      ["varied", "note 4 changed", 8],
      ["varied", "a note added after note 4", 9],
      ["varied", "note 6 left out", 7],
      ["transposed", "", 8],
    ]);
  });

  it("that never returns twice alike is found all the same", () => {
    const motif = firstIdea([
      IDEA,
      IDEA.with(2, 65),
      up(3).with(5, 78),
      IDEA.toSpliced(4, 1),
      up(-2).with(6, 66),
    ]);
    expect(motif.occurrences.length).toBeGreaterThanOrEqual(4);
    expect(motif.occurrences.some((o) => o.relation === "varied")).toBe(true);
  });

  it("upside down or backwards is named so", () => {
    const inverted = IDEA.map((pitch) => 130 - pitch);
    const backwards = [...IDEA].reverse().map((pitch) => pitch + 1);
    const motif = firstIdea([IDEA, IDEA, inverted, backwards, IDEA]);
    expect(motif.occurrences.map((o) => [o.relation, o.change])).toEqual([
      ["exact", ""],
      ["exact", ""],
      ["varied", "inverted"],
      ["varied", "backwards"],
      ["exact", ""],
    ]);
  });

  it("moved along the scale is the same idea bent", () => {
    // Up and down the C major scale in a shape of its own, then from the next tones of the scale.
    const scale = [60, 62, 64, 65, 67, 69, 71, 72, 74, 76, 77, 79, 81, 83];
    const steps = [0, 4, 2, 5, 1, 6, 3, 0];
    const from = (tone: number) => steps.map((step) => scale[tone + step]!);
    const motif = firstIdea([from(0), from(0), from(3), from(1)]);
    expect(motif.occurrences.filter((o) => o.change.includes("along the scale")).length).toBeGreaterThan(0);
  });

  it("taken up at once at another pitch is a sequence", () => {
    const short = [60, 67, 63, 70, 64];
    const motif = firstIdea([
      [...short, ...short.map((p) => p + 2), ...short.map((p) => p + 4)],
      short,
      short.map((p) => p - 3),
    ]);
    expect(motif.occurrences.filter((o) => o.change.includes("sequence"))).toHaveLength(2);
  });

  it("with the same fingers at another place is told as the same fingering", () => {
    const fingers = [1, 4, 2, 5, 1, 5, 3, 2] as const;
    const fingered = (pitches: readonly number[]) =>
      even(pitches, 0, 0.5).map((note, i) => ({ ...note, finger: fingers[i]! }));
    const motif = firstIdea([fingered(IDEA), fingered(up(5)), fingered(IDEA), fingered(up(5))]);
    expect(motif.occurrences.map((o) => [o.relation, o.transposition])).toEqual([
      ["exact", 0],
      ["same fingering", 5],
      ["exact", 0],
      ["same fingering", 5],
    ]);
  });

  it("of rhythm alone is told as rhythm", () => {
    const ats = [0, 0.75, 1, 1.5, 3, 3.25, 3.5, 3.75];
    const rhythm = (seed: number) => between(seed, 8).map((pitch, i) => ({ pitch, at: ats[i]!, beats: 0.2 }));
    const motifs = findMotifs(solo([rhythm(21), rhythm(22), rhythm(23), rhythm(24)]), OPTIONS);
    const found = motifs.find((motif) => motif.viewpoint === "rhythm")!;
    expect(found.occurrences.length).toBeGreaterThanOrEqual(4);
    expect(found.occurrences.some((o) => o.relation === "rhythm")).toBe(true);
  });

  it("does not reach over a breath", () => {
    const motifs = findMotifs(solo([IDEA, IDEA, IDEA]), OPTIONS);
    const held = findMotifs(
      solo([IDEA, IDEA, IDEA]).map((note, i) => ({ ...note, phrase: `p${Math.floor(i / 11)}` })),
      OPTIONS,
    );
    // The phrases change inside the statements, but nobody breathes there.
    expect(held.map((m) => m.length)).toEqual(motifs.map((m) => m.length));
  });
});

describe("an idea's life", () => {
  it("is told over the choruses: first heard, carried over, dropped", () => {
    // Eleven beats a statement with its chance notes: the choruses are of 48 beats.
    const other = [60, 61, 72, 59, 66, 68, 57, 70];
    const motif = findMotifs(
      solo([
        IDEA,
        IDEA,
        IDEA,
        IDEA,
        IDEA,
        IDEA,
        other.map((p) => p + 1),
        between(77, 8),
        between(78, 8),
        between(79, 8),
      ]),
      OPTIONS,
    )[0]!;
    expect(motif.development.firstHeard).toEqual({ chorus: 1, bar: 2 });
    expect(motif.development.byChorus).toEqual([
      { chorus: 1, occurrences: 4 },
      { chorus: 2, occurrences: 2 },
    ]);
    expect(motif.development.carriedOver).toEqual([2]);
    expect(motif.development.droppedFrom).toBe(3);
  });

  it("shows call and answer in neighbouring phrases", () => {
    const notes = solo([IDEA, up(5), up(2), IDEA]).map((note, i) => ({
      ...note,
      phrase: `p${1 + Math.floor(i / 22)}`,
    }));
    expect(findMotifs(notes, OPTIONS)[0]!.answers).toEqual([
      { call: "p1", answer: "p2" },
      { call: "p3", answer: "p4" },
    ]);
  });

  it("is shared by takes that are looked at together", () => {
    const takes = [
      { id: "spring", notes: solo([IDEA, up(2)]) },
      { id: "summer", notes: solo([up(5), IDEA]) },
      { id: "autumn", notes: played(even(between(91, 40), 0, 0.5)) },
    ];
    const motif = findSharedMotifs(takes)[0]!;
    expect(motif.takes).toEqual(["spring", "summer"]);
    expect(motif.occurrences.map((o) => [o.take, o.firstNote])).toEqual([
      ["spring", "n15"],
      ["spring", "n37"],
      ["summer", "n15"],
      ["summer", "n37"],
    ]);
  });
});

describe("a line without ideas", () => {
  it("has none: a scale up and down, a trill, one note, nothing", () => {
    const scale = Array.from(
      { length: 96 },
      (_, i) => [60, 62, 64, 65, 67, 69, 71, 72, 71, 69, 67, 65, 64, 62][i % 14]!,
    );
    const trill = Array.from({ length: 60 }, (_, i) => 60 + 2 * (i % 2));
    for (const line of [trill, new Array<number>(50).fill(60), [60], [60, 62], []]) {
      expect(findMotifs(played(even(line, 0, 0.5)), OPTIONS)).toEqual([]);
    }
    expect(findMotifs(played(even(scale, 0, 0.5)), OPTIONS).length).toBeLessThanOrEqual(2);
  });

  it("has at most one by chance in twenty takes of pure noise", () => {
    for (const spread of [3, 1.5]) {
      let told = 0;
      for (let seed = 5001; seed <= 5020; seed++)
        told += findMotifs(plantedTake(seed, "none", { ...SHAPE, spread }).notes, OPTIONS).length;
      expect(told).toBeLessThanOrEqual(1);
    }
  });
});

const SHAPE: PlantedShape = { notes: 240, motifs: 3, length: [6, 9], returns: [4, 6], spread: 3 };

describe("what is told", () => {
  const note = fc.record({
    pitch: fc.integer({ min: 0, max: 127 }),
    gap: fc.integer({ min: 0, max: 12 }).map((n) => n / 4),
    finger: fc.constantFrom(1, 2, 3, 4, 5) as fc.Arbitrary<1 | 2 | 3 | 4 | 5>,
    degree: fc.constantFrom(...DEGREES),
    phrase: fc.constantFrom("p1", "p2"),
  });

  it("fits the account, holds no overlap beyond a shared note, and is at most ten ideas", () => {
    fc.assert(
      fc.property(fc.array(note, { maxLength: 40 }), fc.integer({ min: 1, max: 4 }), (notes, times) => {
        let at = 0;
        const line = played(
          Array.from({ length: times }, () => notes)
            .flat()
            .map(({ gap, ...rest }) => {
              at += gap;
              return { ...rest, at, beats: 0.25 };
            }),
        );
        // Keys struck together are one note of the line, with the ids of all of them.
        const place = new Map(
          melodicLine(line).flatMap(({ first, last }, step) =>
            line.slice(first, last + 1).map(({ id }) => [id, step] as const),
          ),
        );
        const motifs = findMotifs(line, OPTIONS);
        expect(motifs.length).toBeLessThanOrEqual(10);
        for (const motif of motifs) {
          expect(motifSchema.parse(motif)).toEqual(motif);
          expect(motif.occurrences.length).toBeGreaterThanOrEqual(2);
          let free = 0;
          for (const { firstNote, lastNote } of motif.occurrences) {
            expect(place.get(firstNote)!).toBeGreaterThanOrEqual(free);
            free = place.get(lastNote)!;
          }
        }
        expect(findMotifs(line, OPTIONS)).toEqual(motifs);
      }),
      { numRuns: 60 },
    );
  });
});
