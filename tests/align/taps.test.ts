import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { anchorsOfTaps, mergeAnchors, type TapStep } from "../../src/align/index.ts";
import { formChart, parseChart } from "../../src/chart/index.ts";
import { Problem } from "../../src/take/index.ts";
import { seeded } from "./simulator/index.ts";

const BLUES = formChart("blues-basic", "F");
const START = { chorus: 1, bar: 1, beat: 1 };

/** Taps of a person: even but for the spread that tapping along has (Repp 2005: some 20 to 40 ms [memory]). */
function tapped(beats: number, period: number, spread: number, seed: number, from = 2): number[] {
  const random = seeded(seed);
  return Array.from({ length: beats }, (_, i) => from + i * period + random.normal(spread));
}

const barsOf = (taps: readonly number[], step: TapStep = "beat") =>
  anchorsOfTaps(taps, START, step, BLUES).anchors.filter((anchor) => anchor.beat === 1);

describe("tapping the beat", () => {
  test("puts an anchor on every bar line, four taps to a bar in 4/4", () => {
    const { anchors, steps, period } = anchorsOfTaps(tapped(17, 0.5, 0, 1), START, "beat", BLUES);
    expect(anchors).toEqual(
      [0, 1, 2, 3, 4].map((bar) => ({ seconds: 2 + 2 * bar, chorus: 1, bar: bar + 1, beat: 1 })),
    );
    expect(steps).toEqual(Array.from({ length: 17 }, (_, i) => i));
    expect(period).toBeCloseTo(0.5, 6);
  });

  test("smooths a jittery finger: bar lines lie nearer the beat than the taps did", () => {
    let [taps, bars, count] = [0, 0, 0];
    for (let seed = 1; seed <= 30; seed++) {
      const given = tapped(33, 0.5, 0.03, seed);
      barsOf(given).forEach((anchor, b) => {
        taps += (given[4 * b]! - (2 + 2 * b)) ** 2;
        bars += (anchor.seconds - (2 + 2 * b)) ** 2;
        count++;
      });
    }
    expect(Math.sqrt(bars / count)).toBeLessThan(0.75 * Math.sqrt(taps / count));
    expect(Math.sqrt(bars / count)).toBeLessThan(0.022);
  });

  test("counts on through missed taps, and leaves out one too many", () => {
    for (let seed = 1; seed <= 20; seed++) {
      const given = tapped(33, 0.45, 0.02, seed);
      const missing = given.filter((_, i) => ![5, 11, 12, 20].includes(i));
      const extra = [...missing, given[15]! + 0.2].sort((a, b) => a - b);
      const bars = barsOf(extra);
      expect(bars.map((anchor) => anchor.bar)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9]);
      bars.forEach((anchor, b) => {
        expect(Math.abs(anchor.seconds - (2 + 1.8 * b))).toBeLessThan(0.06);
      });
      const { steps } = anchorsOfTaps(extra, START, "beat", BLUES);
      expect(steps.filter((step) => step === null)).toHaveLength(1);
    }
  });

  test("a finger that bounces taps once", () => {
    const given = tapped(9, 0.5, 0, 1);
    const { anchors, steps } = anchorsOfTaps([...given, given[3]! + 0.05], START, "beat", BLUES);
    expect(anchors.at(-1)).toEqual({ seconds: 6, chorus: 1, bar: 3, beat: 1 });
    expect(steps[4]).toBeNull();
  });

  test("follows a tempo that changes as a player's does", () => {
    // From 100 to 130 a minute over ten bars.
    let t = 1;
    const given = Array.from({ length: 41 }, (_, i) => {
      const now = t;
      t += 60 / (100 + (30 * i) / 40);
      return now;
    });
    const bars = barsOf(given);
    bars.forEach((anchor, b) => {
      expect(Math.abs(anchor.seconds - given[4 * b]!)).toBeLessThan(0.02);
    });
  });

  test("takes taps in half time, and on bars alone, at their word", () => {
    expect(barsOf(tapped(9, 1, 0, 1), "second beat").map((anchor) => [anchor.bar, anchor.seconds])).toEqual([
      [1, 2],
      [2, 4],
      [3, 6],
      [4, 8],
      [5, 10],
    ]);
    expect(barsOf(tapped(5, 2, 0, 1), "bar").map((anchor) => [anchor.bar, anchor.seconds])).toEqual([
      [1, 2],
      [2, 4],
      [3, 6],
      [4, 8],
      [5, 10],
    ]);
  });

  // In 6/8 and 12/8 the beat is a dotted quarter note: two, and four, in a bar.
  test("taps dotted quarters in compound meters", () => {
    const chart = parseChart("key: Dm\nmeter: 6/8\n| Dm7 | Gm7 | A7 | Dm7 |");
    const { anchors } = anchorsOfTaps(
      [0, 1, 2, 3, 4].map((i) => 1 + 0.6 * i),
      { chorus: 1, bar: 2, beat: 4 },
      "beat",
      chart,
    );
    expect(anchors.map(({ bar, beat }) => [bar, beat])).toEqual([
      [2, 4],
      [3, 1],
      [4, 1],
      // The last tap.
      [4, 4],
    ]);
    expect(anchors[1]!.seconds).toBeCloseTo(1.6, 6);
  });

  test("goes on into the next chorus", () => {
    const { anchors } = anchorsOfTaps(tapped(9, 0.5, 0, 1), { chorus: 1, bar: 12, beat: 1 }, "beat", BLUES);
    expect(anchors.map(({ chorus, bar }) => [chorus, bar])).toEqual([
      [1, 12],
      [2, 1],
      [2, 2],
    ]);
  });

  test("anchors always rise, whatever was tapped", () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 60, noNaN: true }), { maxLength: 40 }), (taps) => {
        try {
          const { anchors } = anchorsOfTaps(taps, START, "beat", BLUES);
          for (let i = 1; i < anchors.length; i++)
            expect(anchors[i]!.seconds).toBeGreaterThanOrEqual(anchors[i - 1]!.seconds);
        } catch (error) {
          expect(error).toBeInstanceOf(Problem);
        }
      }),
      { numRuns: 200, seed: 2 },
    );
  });

  test("needs three taps", () => {
    expect(() => anchorsOfTaps([1, 2], START, "beat", BLUES)).toThrow(/fewer than three taps/);
  });

  test("replaces what was pinned where it was tapped, and keeps the rest", () => {
    const old = [
      { seconds: 0.5, chorus: 1, bar: 1, beat: 1 },
      { seconds: 5, chorus: 1, bar: 3, beat: 2 },
      { seconds: 40, chorus: 2, bar: 1, beat: 1 },
    ];
    const fresh = anchorsOfTaps(tapped(9, 0.5, 0, 1), { chorus: 1, bar: 2, beat: 1 }, "beat", BLUES).anchors;
    expect(mergeAnchors(old, fresh, BLUES)).toEqual([old[0], ...fresh, old[2]]);
  });
});
