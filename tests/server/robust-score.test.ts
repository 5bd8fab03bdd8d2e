import { mean, medianAbsoluteDeviation, probit } from "simple-statistics";
import { describe, expect, it } from "vitest";
import { middleOf, robustScore, STANDS_APART } from "../../server/corpus/robust-score.ts";

describe("how far a take stands from the middle", () => {
  // Example of the documentation of simple-statistics, also the usual textbook one.
  const usual = [1, 1, 2, 2, 4, 6, 9];

  it("is measured in median absolute deviations (simple-statistics: median 2, deviation 1)", () => {
    expect(middleOf(usual)).toMatchObject({ median: 2, deviation: medianAbsoluteDeviation(usual) });
    expect(middleOf(usual)!.deviation).toBe(1);
  });

  it("is 0.6745 (x - median) / MAD (NIST/SEMATECH e-Handbook 1.3.5.17): 9 scores 4.72 and stands apart, 6 does not", () => {
    const middle = middleOf(usual)!;
    expect(robustScore(9, middle)).toBeCloseTo((0.6745 * (9 - 2)) / 1, 9);
    expect(robustScore(9, middle)).toBeGreaterThan(STANDS_APART);
    expect(robustScore(6, middle)).toBeLessThan(STANDS_APART);
    expect(robustScore(2, middle)).toBe(0);
  });

  it("scores as a z-score would where values are normal: 0.6745 is the normal quartile (simple-statistics)", () => {
    const normal = Array.from({ length: 999 }, (_, i) => probit((i + 1) / 1000));
    const middle = middleOf(normal)!;
    for (const value of [-2, -1, 0.5, 3]) expect(robustScore(value, middle)).toBeCloseTo(value, 1);
  });

  it("is not pulled along by the far value itself, as a mean would be", () => {
    const takes = [100, 102, 98, 101, 99, 100, 400];
    expect(robustScore(400, middleOf(takes)!)).toBeGreaterThan(100);
    expect(Math.abs(400 - mean(takes))).toBeLessThan(300);
  });

  it("falls back on the mean deviation where more than half are equal, and says nothing of fewer than five", () => {
    const middle = middleOf([3, 3, 3, 3, 3, 3, 8])!;
    expect(middle.deviation).toBe(0);
    expect(robustScore(8, middle)).toBeCloseTo(5 / (1.2533 * (5 / 7)), 9);
    expect(robustScore(3, middleOf([3, 3, 3, 3, 3])!)).toBe(0);
    expect(middleOf([1, 2, 3, 4])).toBeNull();
  });
});
