/** Pattern discovery against published definitions, tables and worked examples. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  binomialTail,
  commonPrefixes,
  findMotifs,
  matchPattern,
  patternOf,
  suffixArray,
  visitRepeats,
} from "../../src/motif/index.ts";
import { falseDiscoveryRates } from "../../src/statistics/false-discovery.ts";
import { cardinalityScore, establishment, occurrenceScore } from "../motif/establishment.ts";
import { plantedTake } from "../motif/planted.ts";
import { maximalTranslatablePatterns, type Point } from "../motif/translatable.ts";
import { even, played } from "../rhythm/played.ts";

describe("texts of the handbooks", () => {
  const symbols = (word: string) => Int32Array.from(word, (letter) => letter.charCodeAt(0));

  it("mississippi has the maximal repeats i, s, p and issi (Gusfield 1997, 7.12)", () => {
    const row = symbols("mississippi");
    const sorted = suffixArray(row, 128);
    const found: Record<string, number> = {};
    visitRepeats(row, sorted, commonPrefixes(row, sorted), 1, (length, from, to) => {
      found["mississippi".slice(sorted[from]!, sorted[from]! + length)] = to - from + 1;
    });
    expect(found).toEqual({ i: 4, s: 4, p: 2, issi: 2 });
  });

  it("mississippi and banana have the suffix arrays of the textbooks (Manber & Myers 1993; Gusfield 1997)", () => {
    expect([...suffixArray(symbols("mississippi"), 128)]).toEqual([10, 7, 4, 1, 0, 9, 8, 6, 3, 5, 2]);
    const banana = suffixArray(symbols("banana"), 128);
    expect([...banana]).toEqual([5, 3, 1, 0, 4, 2]);
    expect([...commonPrefixes(symbols("banana"), banana)]).toEqual([0, 1, 3, 0, 0, 2]);
  });
});

describe("chance", () => {
  it("P(X >= 12) of 500 trials at .01 is .005208 (binomial tables)", () => {
    expect(binomialTail(12, 500, 0.01)).toBeCloseTo(0.005208, 6);
  });

  it("of coins is what Pascal's triangle says", () => {
    // 10 throws: 386 of 1024 ways have six heads or more.
    expect(binomialTail(6, 10, 0.5)).toBeCloseTo(386 / 1024, 12);
    expect(binomialTail(0, 10, 0.5)).toBe(1);
    expect(binomialTail(11, 10, 0.5)).toBe(0);
    expect(binomialTail(10, 10, 0.5)).toBeCloseTo(1 / 1024, 12);
  });

  it("keeps four of the fifteen comparisons of Benjamini & Hochberg 1995, section 4 [memory]", () => {
    const p = [
      0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344, 0.0459, 0.324, 0.4262, 0.5719, 0.6528,
      0.759, 1,
    ];
    expect(falseDiscoveryRates(p, 15).filter((q) => q <= 0.05)).toHaveLength(4);
    expect(falseDiscoveryRates(p, 15)[3]!).toBeCloseTo((0.0095 * 15) / 4, 12);
  });
});

describe("a motif at three pitches", () => {
  // Conventional example of a repeated interval pattern: up by 2 2 1 2 semitones and back by 2. [practice]
  const pitches = [60, 62, 64, 65, 67, 65, 65, 67, 69, 70, 72, 70, 62, 64, 66, 67, 69, 67];

  it("holds its interval pattern three times", () => {
    const notes = played(even(pitches, 0, 0.5));
    const pattern = patternOf(notes.slice(0, 6), "chromatic interval");
    expect(pattern.symbols).toEqual([2, 2, 1, 2, -2]);
    expect(matchPattern(pattern, notes).map((hit) => [hit.firstNote, hit.pitch])).toEqual([
      ["n1", 60],
      ["n7", 65],
      ["n13", 62],
    ]);
  });
});

describe("translatable patterns", () => {
  const example: Point[] = [
    [1, 1],
    [1, 3],
    [2, 1],
    [2, 2],
    [2, 3],
    [3, 2],
  ];

  it("of the published example are nine, from fifteen pairs (Meredith, Lemström & Wiggins 2002)", () => {
    const patterns = maximalTranslatablePatterns(example);
    expect([...patterns.values()].flat()).toHaveLength(15);
    expect(patterns.size).toBe(9);
  });

  it("hold every plain return that is told: the whole idea moves by one vector of time and pitch", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 60 }), (seed) => {
        const take = plantedTake(seed, "transposed", {
          notes: 90,
          motifs: 1,
          length: [7, 9],
          returns: [4, 5],
          spread: 3,
        });
        const line = take.notes.map((note) => ({ ...note, position: Math.round(note.position! * 12) }));
        const place = new Map(line.map((note, i) => [note.id, i]));
        const patterns = maximalTranslatablePatterns(line.map((note): Point => [note.position, note.pitch]));
        for (const motif of findMotifs(take.notes, { seed: 1 })) {
          if (motif.viewpoint !== "chromatic interval") continue;
          const plain = motif.occurrences.filter(
            (o) => o.relation === "exact" || o.relation === "transposed",
          );
          for (const other of plain.slice(1)) {
            if (other.change !== "") continue;
            const [a, b] = [place.get(plain[0]!.firstNote)!, place.get(other.firstNote)!];
            const vector = `${line[b]!.position - line[a]!.position},${line[b]!.pitch - line[a]!.pitch}`;
            const points = new Set(patterns.get(vector)!.map((point) => point.join()));
            // Rhythms are planted freely, so the first note at least moves by the vector, and the pitches all do.
            expect(points.has(`${line[a]!.position},${line[a]!.pitch}`)).toBe(true);
            for (let k = 0; k < motif.length; k++) {
              expect(line[b + k]!.pitch - line[a + k]!.pitch).toBe(
                other.transposition! - plain[0]!.transposition!,
              );
            }
          }
        }
      }),
      { numRuns: 15 },
    );
  });
});

describe("the published scores of discovery (Collins, MIREX 2013 [memory])", () => {
  const set = (...notes: number[]) => new Set(notes);
  // Two true patterns of two occurrences each; what is found has lost a note of the first, and invented a third.
  const truth = [
    [set(1, 2, 3, 4), set(11, 12, 13, 14)],
    [set(21, 22, 23, 24, 25), set(31, 32, 33, 34, 35)],
  ];
  const found = [
    [set(1, 2, 3), set(11, 12, 13, 14)],
    [set(41, 42), set(43, 44)],
  ];

  it("count notes in common over those of the larger set", () => {
    expect(cardinalityScore(truth[0]![0]!, found[0]![0]!)).toBe(3 / 4);
    expect(cardinalityScore(truth[0]![1]!, found[0]![1]!)).toBe(1);
    expect(cardinalityScore(truth[1]![0]!, found[1]![0]!)).toBe(0);
  });

  it("establish a pattern by its best occurrence", () => {
    // Establishment matrix by the definition: [[1, 0], [0, 0]]; both means are 1/2.
    expect(establishment(truth, found)).toEqual({ precision: 0.5, recall: 0.5, f1: 0.5 });
  });

  it("score occurrences of established patterns alone", () => {
    // Of the one pair established: each occurrence's best score, 3/4 and 1, by rows and by columns.
    expect(occurrenceScore(truth, found, 0.75)).toEqual({ precision: 0.875, recall: 0.875, f1: 0.875 });
  });

  it("are one for a perfect discovery and nought for none", () => {
    expect(establishment(truth, truth)).toEqual({ precision: 1, recall: 1, f1: 1 });
    expect(occurrenceScore(truth, truth, 0.75)).toEqual({ precision: 1, recall: 1, f1: 1 });
    expect(establishment(truth, []).f1).toBe(0);
  });
});
