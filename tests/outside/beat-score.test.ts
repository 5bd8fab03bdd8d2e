import { describe, expect, test } from "vitest";
import { BEAT_WINDOW, readBeatMarks, scoreBeats } from "../align/beat-score.ts";

// The worked example that the field's evaluation packages share: ten annotated beats, ten found ones of which one is
// 100 ms late, one is missing and one is too many. Davies, Degara & Plumbley 2009 (technical report C4DM-TR-09-06) for
// the measure; the numbers are those of the checks in the package of Böck, Korzeniowski, Schlüter, Krebs & Widmer 2016:
// eight hits, precision 8/10, recall 8/10, F = 0.8.
const ANNOTATED = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10];
const FOUND = [1.01, 2, 2.95, 4, 6, 7, 8, 9.1, 10, 11];

describe("the F-measure of beats", () => {
  test("gives the published worked example its published score", () => {
    const score = scoreBeats(ANNOTATED, FOUND);
    expect(score.hits).toBe(8);
    expect(score.precision).toBe(0.8);
    expect(score.recall).toBe(0.8);
    expect(score.f).toBeCloseTo(0.8, 12);
  });

  test("uses the 70 ms of the literature (Dixon 2007)", () => {
    expect(BEAT_WINDOW).toBe(0.07);
    expect(scoreBeats([1, 2], [1.069, 1.931]).f).toBe(1);
    expect(scoreBeats([1, 2], [1.071, 1.929]).f).toBe(0);
  });

  // The same package's edge cases: two empty rows agree, one empty row scores nothing.
  test("treats empty rows as the evaluation packages do", () => {
    expect(scoreBeats([], []).f).toBe(1);
    expect(scoreBeats(ANNOTATED, []).f).toBe(0);
    expect(scoreBeats([], FOUND).f).toBe(0);
  });

  // By the formula F = 2c / (2c + f+ + f-): a tracker at twice the tempo hits all ten and adds nine (19 beats).
  test("scores double and half tempo by the formula", () => {
    const double = ANNOTATED.flatMap((t, i) => (i === 9 ? [t] : [t, t + 0.5]));
    expect(scoreBeats(ANNOTATED, double).f).toBeCloseTo(20 / 29, 12);
    const half = ANNOTATED.filter((_, i) => i % 2 === 0);
    expect(scoreBeats(ANNOTATED, half).f).toBeCloseTo(10 / 15, 12);
  });

  test("meets each annotated beat at most once", () => {
    expect(scoreBeats([1], [0.97, 1.03]).hits).toBe(1);
    expect(scoreBeats([1, 1.1], [1.06]).hits).toBe(1);
  });
});

describe("beat annotations", () => {
  test("are read with their marks, whether numbers or words", () => {
    const marks = readBeatMarks("# seconds\tbeat\n0.51\t1\n1.02\t2\r\n1.53 3\n\n2.04\tdb,4/4\n2.55\tb\n");
    expect(marks.beats).toEqual([0.51, 1.02, 1.53, 2.04, 2.55]);
    expect(marks.downbeats).toEqual([0.51, 2.04]);
  });

  test("name the line that holds no time", () => {
    expect(() => readBeatMarks("0.5\nbeat two\n")).toThrow(/line 2: "beat"/);
  });
});
