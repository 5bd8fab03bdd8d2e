import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Anchor, align } from "../../src/align/index.ts";
import { partHands } from "../../src/parting/part-hands.ts";
import { checkTimeMap, Problem, positionAt, secondsAt } from "../../src/take/index.ts";
import { drawSpec, perform } from "./simulator/index.ts";

const OPEN = { soloPart: null, soloStaff: null, soloHand: null };

function laid(seed: number, anchorsOf: (secondsAt: (position: number) => number) => Anchor[]) {
  const performance = perform({ ...drawSpec("steady", seed), choruses: 2, pauses: 0, slips: 0, tagBars: 0 });
  const { take, truth, spec } = performance;
  const anchors = anchorsOf(truth.secondsAt);
  const { hands } = partHands(take, OPEN);
  return {
    alignment: align(take, spec.chart, hands, { method: "auto", tempo: null, anchors }),
    anchors,
    spec,
    truth,
  };
}

describe("anchors", () => {
  test("are gone through exactly, kept with the alignment, and name its method", () => {
    const { alignment, anchors, spec } = laid(3, (at) => [
      { seconds: at(0), chorus: 1, bar: 1, beat: 1 },
      { seconds: at(0) + 9.87, chorus: 1, bar: 5, beat: 2 },
    ]);
    expect(alignment.method).toBe("anchored");
    expect(alignment.anchors).toEqual(anchors);
    const bar = (spec.chart.meter.beats * 4) / spec.chart.meter.unit;
    expect(secondsAt(alignment.map, 0)).toBeCloseTo(anchors[0]!.seconds, 9);
    expect(secondsAt(alignment.map, 4 * bar + 4 / spec.chart.meter.unit)).toBeCloseTo(anchors[1]!.seconds, 9);
  });

  test("move the chart under the take: a bar pinned one bar later shifts every bar", () => {
    const { alignment, truth, spec } = laid(5, (at) => [{ seconds: at(0), chorus: 1, bar: 2, beat: 1 }]);
    const bar = (spec.chart.meter.beats * 4) / spec.chart.meter.unit;
    const first = alignment.bars.findIndex((b) => b.bar === 2);
    expect(alignment.bars[first]!.start).toBeCloseTo(truth.secondsAt(0), 6);
    expect(Math.abs(alignment.bars[first + 4]!.start - truth.secondsAt(4 * bar))).toBeLessThan(0.07);
  });

  test("hold wherever they are put, and time never runs back", () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.record({
            bar: fc.integer({ min: 1, max: 8 }),
            late: fc.double({ min: -0.3, max: 0.3, noNaN: true }),
          }),
          {
            minLength: 1,
            maxLength: 4,
          },
        ),
        (drawn) => {
          const { alignment, anchors, spec } = laid(7, (at) => {
            const bar =
              (drawSpec("steady", 7).chart.meter.beats * 4) / drawSpec("steady", 7).chart.meter.unit;
            const bars = [...new Map(drawn.map((d) => [d.bar, d])).values()];
            return bars
              .map((d) => ({
                seconds: Math.max(0.01, at((d.bar - 1) * bar) + d.late),
                chorus: 1,
                bar: d.bar,
                beat: 1,
              }))
              .sort((a, b) => a.bar - b.bar)
              .filter((a, i, all) => i === 0 || a.seconds > all[i - 1]!.seconds + 0.05);
          });
          checkTimeMap(alignment.map);
          const bar = (spec.chart.meter.beats * 4) / spec.chart.meter.unit;
          for (const anchor of anchors) {
            expect(positionAt(alignment.map, anchor.seconds)).toBeCloseTo((anchor.bar - 1) * bar, 6);
          }
        },
      ),
      { numRuns: 12, seed: 1 },
    );
  });

  test("that cross each other, or name a beat that no bar has, are refused in words", () => {
    const cross = () =>
      laid(3, () => [
        { seconds: 2, chorus: 1, bar: 3, beat: 1 },
        { seconds: 4, chorus: 1, bar: 2, beat: 1 },
      ]);
    expect(cross).toThrow(Problem);
    expect(cross).toThrow(/not after/);
    expect(() => laid(3, () => [{ seconds: 2, chorus: 1, bar: 3, beat: 99 }])).toThrow(/no beat 99/);
  });
});
