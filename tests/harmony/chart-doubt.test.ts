/** How sure bars are where the notes fit the chart badly, against what was counted in open solos. */
import { describe, expect, it } from "vitest";
import { type ChartFit, withChartDoubt } from "../../src/harmony/index.ts";
import type { Alignment } from "../../src/take/index.ts";

const PIN = { seconds: 0, chorus: 1, bar: 1, beat: 1 };

function laid(confidence: number, pins: number): Alignment {
  return {
    method: pins > 0 ? "anchored" : "tracked",
    confidence,
    choruses: 1,
    pickupBeats: 0,
    tempo: null,
    map: [],
    bars: [{ chorus: 1, bar: 1, start: 0, end: 2, confidence }],
    anchors: Array.from({ length: pins }, () => PIN),
    warnings: [],
    alternatives: [],
  };
}

/** A chart whose notes fit it so well; the verdict is left out of it. */
const fitting = (score: number): ChartFit => ({ verdict: "fits", score, better: [] });
const odds = (share: number) => Math.log(share / (1 - share));

describe("bars of a chart that fits badly", () => {
  // Of open solos laid by tables of other players, bars are told best where .3 to .5 of what the chart falls short by is
  // taken from their odds, under each of four conditions: 1.7 nats short, .5 to .85 less.
  it("are less sure, by no more than was counted", () => {
    const score = 1 / (1 + Math.exp(1.7 - odds(0.95)));
    const { bars } = withChartDoubt(laid(0.8, 0), fitting(score), false);
    const lower = odds(0.8) - odds(bars[0]!.confidence);
    expect(lower).toBeGreaterThan(0.5);
    expect(lower).toBeLessThan(0.86);
  });

  // Of four such takes with three bar lines pinned .77 and more of the notes are in their bars.
  it("are as sure as their pins make them", () => {
    expect(withChartDoubt(laid(0.9, 3), fitting(0.3), false).confidence).toBe(0.9);
    expect(withChartDoubt(laid(0.9, 1), fitting(0.3), false).confidence).toBeLessThan(0.7);
  });

  it("are as sure as before where the chart has been confirmed", () => {
    expect(withChartDoubt(laid(0.9, 0), fitting(0.3), true).confidence).toBe(0.9);
  });
});
