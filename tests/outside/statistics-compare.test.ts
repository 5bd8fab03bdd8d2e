/** The statistics of comparison against published worked values and against simple-statistics. */
import * as ss from "simple-statistics";
import { describe, expect, it } from "vitest";
import {
  bootstrapInterval,
  cliffsDelta,
  jensenShannon,
  permutationTest,
  trendOf,
} from "../../src/compare/index.ts";
import { falseDiscoveryRates } from "../../src/statistics/false-discovery.ts";

const difference = (a: readonly number[], b: readonly number[]) => ss.mean([...a]) - ss.mean([...b]);

/** Rows of numbers without any order, the same at every run. */
function rows(seed: number, count: number): number[] {
  let state = seed;
  return Array.from({ length: count }, () => {
    state = (state * 48271) % 2147483647;
    return state % 50;
  });
}

describe("Jensen-Shannon divergence, base 2", () => {
  // Lin 1991: JS(P, Q) = H(M) - (H(P) + H(Q)) / 2. For [.5, .5] and [1, 0] that is H(.75, .25) - .5 = .311278.
  it("of a fair coin against a sure one is 0.311278", () => {
    expect(jensenShannon({ heads: 0.5, tails: 0.5 }, { heads: 1 })).toBeCloseTo(0.311278, 6);
  });

  it("is 0 for the same distribution and 1 for nothing in common (Lin 1991)", () => {
    expect(jensenShannon({ a: 0.3, b: 0.7 }, { a: 0.3, b: 0.7 })).toBeCloseTo(0, 12);
    expect(jensenShannon({ a: 1 }, { b: 0.5, c: 0.5 })).toBeCloseTo(1, 12);
  });

  it("equals the entropy of the mixture less the mean entropy (Lin 1991), also for counts", () => {
    const entropy = (p: readonly number[]) => -ss.sum(p.map((x) => (x > 0 ? x * Math.log2(x) : 0)));
    for (let seed = 1; seed <= 20; seed++) {
      const [a, b] = [rows(seed, 6), rows(seed + 100, 6)];
      const [p, q] = [a.map((x) => x / ss.sum(a)), b.map((x) => x / ss.sum(b))];
      const middle = p.map((x, i) => (x + q[i]!) / 2);
      const label = (values: readonly number[]) => Object.fromEntries(values.map((x, i) => [`d${i}`, x]));
      const expected = entropy(middle) - (entropy(p) + entropy(q)) / 2;
      expect(jensenShannon(label(a), label(b))).toBeCloseTo(expected, 10);
    }
  });
});

describe("Cliff's delta", () => {
  it("of 1 2 3 against 4 5 6 is -1", () => {
    expect(cliffsDelta([1, 2, 3], [4, 5, 6])).toBe(-1);
  });

  // delta = 2 U / (n m) - 1, with U from the rank sum (Cliff 1993); ranks from simple-statistics.
  it("agrees with the Mann-Whitney U of simple-statistics", () => {
    for (let seed = 1; seed <= 30; seed++) {
      const [a, b] = [rows(seed, 7 + (seed % 5)), rows(seed + 50, 9)];
      const u = ss.wilcoxonRankSum(a, b) - (a.length * (a.length + 1)) / 2;
      expect(cliffsDelta(a, b)).toBeCloseTo((2 * u) / (a.length * b.length) - 1, 10);
    }
  });
});

describe("the permutation test", () => {
  // Of the 20 ways to choose three of six, only two are as far apart: p = 2/20.
  it("of 1 2 3 against 4 5 6 is exact, two-sided p = 0.1", () => {
    const result = permutationTest([1, 2, 3], [4, 5, 6], difference, 1);
    expect(result).toMatchObject({ exact: true });
    expect(result!.p).toBeCloseTo(0.1, 12);
    expect(result!.least).toBeCloseTo(0.1, 12);
  });

  it("agrees with every deal counted from simple-statistics' combinations", () => {
    for (let seed = 3; seed <= 8; seed++) {
      const [a, b] = [rows(seed, 4), rows(seed + 9, 5)];
      const all = [...a, ...b];
      const seen = Math.abs(difference(a, b));
      const deals = ss.combinations(all.map((_, i) => i) as unknown as number[], 4) as number[][];
      const extreme = deals.filter((deal) => {
        const first = deal.map((i) => all[i]!);
        const second = all.filter((_, i) => !deal.includes(i));
        return Math.abs(difference(first, second)) >= seen - 1e-9;
      });
      expect(permutationTest(a, b, difference, 1)!.p).toBeCloseTo(extreme.length / deals.length, 10);
    }
  });

  // The example of simple-statistics' own documentation, where p is about 0.13.
  it("with many units comes near the random test of simple-statistics", () => {
    const [a, b] = [rows(21, 14), rows(77, 15)];
    const ours = permutationTest(a, b, difference, 7)!;
    const source = (() => {
      let state = 12345;
      return () => {
        state = (state * 48271) % 2147483647;
        return state / 2147483647;
      };
    })();
    const theirs = ss.permutationTest(a, b, "two_side", 4000, source);
    expect(ours.exact).toBe(false);
    expect(Math.abs(ours.p - theirs)).toBeLessThan(0.04);
  });

  it("gives the same p for the same seed", () => {
    const [a, b] = [rows(5, 20), rows(6, 20)];
    expect(permutationTest(a, b, difference, 3)).toEqual(permutationTest(a, b, difference, 3));
  });
});

describe("false-discovery rate", () => {
  // The worked example of Benjamini & Hochberg 1995, section 4: fifteen p-values, four rejected at 0.05.
  it("rejects four of the fifteen hypotheses of Benjamini and Hochberg's example", () => {
    const p = [
      0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344, 0.0459, 0.324, 0.4262, 0.5719, 0.6528,
      0.759, 1,
    ];
    expect(falseDiscoveryRates(p).filter((q) => q <= 0.05)).toHaveLength(4);
  });
});

describe("the bootstrap interval", () => {
  // Efron 1979: for means it comes near the normal interval of the difference, 1.96 standard errors each way.
  it("of a difference of means is near 1.96 standard errors", () => {
    const [a, b] = [rows(31, 60), rows(32, 60)];
    const [low, high] = bootstrapInterval(a, b, difference, 5)!;
    const error = Math.sqrt(ss.variance(a) / a.length + ss.variance(b) / b.length);
    expect(low).toBeCloseTo(difference(a, b) - 1.96 * error, -0.5);
    expect((high - low) / (2 * 1.96 * error)).toBeGreaterThan(0.85);
    expect((high - low) / (2 * 1.96 * error)).toBeLessThan(1.15);
  });
});

describe("the trend", () => {
  // Kendall's tau: exact two-sided p of perfect order is 2/n! (1/3, 1/12, 1/60 for 3, 4, 5 values).
  it("of values in perfect order has tau 1 and p of 2/n!", () => {
    expect(trendOf([1, 2, 3])).toMatchObject({ tau: 1, words: "rises at every step" });
    expect(trendOf([1, 2, 3])!.p).toBeCloseTo(1 / 3, 12);
    expect(trendOf([4, 3, 2, 1])!.p).toBeCloseTo(1 / 12, 12);
    expect(trendOf([1, 3, 4, 7, 9])!.p).toBeCloseTo(1 / 60, 12);
  });

  // Sen 1968: the median of all pairwise slopes does not follow one far value.
  it("has the median pairwise slope", () => {
    expect(trendOf([0, 1, 2, 3, 100])!.slope).toBe(1);
  });
});
