/** Whether a file's beats are those that a take was played to, against what was counted on solos of the fitted half. */
import { describe, expect, it } from "vitest";
import { align } from "../../src/align/index.ts";
import { CLICK_FROM, clickOdds } from "../../src/align/lattice/click-odds.ts";
import type { Reading } from "../../src/align/lattice/lay-line.ts";
import { readSolos, SOLOS_THERE, takeOf } from "./human-solos.ts";
import { measure } from "./measure.ts";
import { drawPerformance } from "./simulator/index.ts";

/** A reading at the usual tempo of solos, with so much evidence. */
function reading(evidence: number): Reading {
  const beats = new Float64Array(2);
  return { beats, firstBeat: 0, pace: 165, sure: new Float64Array(1), evidence, share: 1 };
}

/** Share that `clickOdds` gives a click where it explains the notes so many nats better than the best free reading. */
function sure(gathered: number, nats: number, chosen = true): number {
  return 1 / (1 + Math.exp(-clickOdds(gathered, reading(nats), [reading(0)], chosen)));
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
    expect(clickOdds(1.5, reading(-50), [], true)).toBeGreaterThan(CLICK_FROM);
  });
});

describe("a recorder's usual tempo", () => {
  // Of 52 own clicks of the fitted half that gather by 3 to 6 the least are explained by 5.3 nats worse than freely; of 32
  // idle grids that are no tempo of the take's the most by 7.6 worse, but one by 5.
  it.each([3.1, 4.1, 5.1])(
    "is played to where the notes fit it nearly as well as any other: %d",
    (gathered) => {
      expect(sure(gathered, -5.3, false)).toBeGreaterThan(2 / 3);
      expect(sure(gathered, -9.5, false)).toBeLessThan(2 / 3);
    },
  );

  // Of 117 clicks 65 gather by 3.5, 42 by 4.5; of 10,062 idle grids 36 and 15.
  it("is more likely where onsets gather more, as was counted", () => {
    const odds = (share: number) => Math.log(share / (1 - share));
    const apart = odds(sure(4.5, -5, false)) - odds(sure(3.5, -5, false));
    expect(apart).toBeGreaterThan(Math.log(42 / 65 / (15 / 36)));
    expect(apart).toBeLessThan(1);
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

describe.skipIf(!SOLOS_THERE)("a recorder's 120 under solos that were played freely", () => {
  // Two of the 117 of the fitted half gather on it by 3.2.
  it.each(["solo-399", "solo-291"])("is no click: %s", (id) => {
    const solo = readSolos(0).find((one) => one.id === id)!;
    const take = takeOf(
      solo.notes.map((note) => ({ ...note, tick: 0, part: "t1" })),
      { stated: true, tempos: [{ tick: 0, seconds: 0, quartersPerMinute: 120 }] },
    );
    const hands = take.notes.map(() => ({ hand: "right" as const, solo: true, margin: 1 }));
    const laid = align(take, solo.chart, hands, { method: "auto", tempo: null, anchors: [] });
    expect(laid.method).not.toBe("click");
  });
});
