/** Whether a file's beats are those that a take was played to, against what was counted on solos of the fitted half. */
import { describe, expect, it } from "vitest";
import { CLICK_FROM, clickOdds } from "../../src/align/lattice/click-odds.ts";
import type { Reading } from "../../src/align/lattice/lay-line.ts";
import { measure } from "./measure.ts";
import { drawPerformance } from "./simulator/index.ts";

/** A reading at the usual tempo of solos, with so much evidence. */
function reading(evidence: number): Reading {
  const beats = new Float64Array(2);
  return { beats, firstBeat: 0, pace: 165, sure: new Float64Array(1), evidence, share: 1 };
}

/** Share that `clickOdds` gives a click where it explains the notes so many nats better than the best free reading. */
function sure(gathered: number, nats: number): number {
  return 1 / (1 + Math.exp(-clickOdds(gathered, reading(nats), [reading(0)])));
}

describe("a file's click", () => {
  /**
   * 117 solos on clicks of their own and 936 idle tempo marks under them: how many gather so much. The nats lie about
   * -2 with the click and -6 without it, so that they say nothing at -3.
   */
  it.each([
    [1.25, 3, 319],
    [1.75, 9, 129],
    [2.25, 14, 46],
    [2.75, 13, 17],
  ])("is weighed by how onsets gather: %d", (gathered, clicks, idle) => {
    const odds = (0.85 / 0.15) * (clicks / 117 / (idle / 936));
    const counted = odds / (1 + odds);
    expect(Math.abs(sure(gathered, -3) - counted)).toBeLessThanOrEqual(0.12);
  });

  it("is believed in sooner where its beats explain the notes better", () => {
    expect(sure(1.5, 4)).toBeGreaterThan(0.9);
    expect(sure(1.5, -9)).toBeLessThan(0.1);
  });

  // On its own click .9 of a solo's notes are in their bars, on an idle one none, read freely .6: .9 p against .6.
  it("is taken where more notes are in their bars by it", () => {
    const share = 1 / (1 + Math.exp(-CLICK_FROM));
    expect(Math.abs(0.9 * share - 0.6)).toBeLessThanOrEqual(0.05);
  });

  it("is taken where nothing else explains the notes", () => {
    expect(clickOdds(1.5, reading(-50), [])).toBeGreaterThan(CLICK_FROM);
  });
});

describe("a file's grid that nobody played to", () => {
  // Strokes of one distance wander over it together: their gathering is no chance of Rayleigh's (1919), who has each of
  // them fall by itself. Of these takes the gathering is 3.1, 3.3, 3.8 and 4.2.
  it.each([2001, 2004, 3138, 3033])("is no click where a hand plays steadily along: %d", (seed) => {
    const performance = drawPerformance("steady", seed);
    expect(performance.spec.fileKnows).toBe(false);
    const { alignment, beats } = measure(performance);
    expect(alignment.method).toBe("tracked");
    expect(beats).toBeGreaterThan(0.95);
  });
});
