/** Our statistics against the npm package simple-statistics. */
import fc from "fast-check";
import * as reference from "simple-statistics";
import { describe, expect, it } from "vitest";
import { binomialTail, logFactorial } from "../../src/motif/chance.ts";
import { describeTime } from "../../src/rhythm/index.ts";
import { slope } from "../../src/rhythm/spread.ts";
import { chartOf, even, played, steady } from "../rhythm/played.ts";

const values = fc.array(fc.double({ min: -1000, max: 1000, noNaN: true }), { minLength: 1, maxLength: 60 });

describe("statistics agree with a reference package", () => {
  it("binomial tails", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 60 }),
        fc.double({ min: 0.01, max: 0.99, noNaN: true }),
        fc.integer({ min: 0, max: 61 }),
        (trials, chance, least) => {
          const table = reference.binomialDistribution(trials, chance)!;
          const sum = table.slice(least).reduce((s, p) => s + p, 0);
          // The package leaves off the table where nearly all is told (1e-4).
          expect(Math.abs(binomialTail(least, trials, chance) - sum)).toBeLessThan(2e-4);
        },
      ),
    );
  });

  it("factorials", () => {
    for (const n of [0, 1, 5, 20, 63, 64, 65, 100, 170]) {
      expect(logFactorial(n)).toBeCloseTo(Math.log(reference.factorial(n)), 9);
    }
    for (const n of [200, 1000, 1e6]) expect(logFactorial(n) / reference.gammaln(n + 1)).toBeCloseTo(1, 10);
  });

  it("slopes", () => {
    fc.assert(
      fc.property(values, (sample) => {
        const points = sample.map((y, x) => ({ x, y }));
        const line = reference.linearRegression(points.map(({ x, y }) => [x, y]));
        const own = slope(points);
        if (points.length < 3) expect(own).toBeNull();
        else expect(own).toBeCloseTo(line.m, 6);
      }),
    );
  });

  it("the variation of a tempo", () => {
    const lengths = [2, 2.1, 1.95, 2.05, 1.9, 2.2, 2, 2.02];
    let start = 0;
    const bars = lengths.map((length, i) => {
      const bar = { chorus: 1, bar: i + 1, start, end: start + length, confidence: 1 };
      start += length;
      return bar;
    });
    const tempos = lengths.map((length) => 240 / length);
    const { tempoStability } = describeTime(
      played(even([60, 62, 64, 65, 67], 0, 1)),
      [],
      chartOf(),
      steady("tracked", 120, bars),
      "midi",
    );
    expect(tempoStability!.variation).toBeCloseTo(
      reference.sampleStandardDeviation(tempos) / reference.mean(tempos),
      4,
    );
  });
});
