/** Whether a hand keeps to the beats that a take was given: a lost place shows in a short take, and binds no long one. */
import { describe, expect, it } from "vitest";
import { lineEvidence } from "../../src/align/lattice/lay-line.ts";
import { strokesOf } from "../../src/align/lattice/line-features.ts";
import { isSteady, onBeats } from "../../src/align/on-beats.ts";
import { formChart } from "../../src/chart/index.ts";
import { takeOf } from "./human-solos.ts";

/** A hand that strikes every beat of a second, some of them half a beat late from the given one on. */
function kept(strokes: number, lost: number, late = 4) {
  const notes = Array.from({ length: strokes }, (_, k) => ({
    pitch: 48,
    onset: k + (k >= lost && k < lost + late ? 0.5 : 0),
    duration: 0.4,
    tick: 480 * k,
    part: "t2",
  }));
  const take = takeOf(notes, {});
  const hands = take.notes.map(() => ({ hand: "left" as const, solo: false, margin: 1 }));
  const evidence = lineEvidence(take.notes, strokesOf(take.notes, hands), formChart("blues-basic", "F"));
  const map = [
    { seconds: 0, position: 0 },
    { seconds: strokes, position: strokes },
  ];
  return onBeats(evidence, map)!;
}

describe("a hand on the beats that a take was given", () => {
  it("is weighed where it is least", () => {
    // Of eight strokes in a row four are beside the beat.
    expect(kept(60, 20).least).toBeCloseTo(0.5, 5);
    expect(kept(60, 20).share).toBeCloseTo(56 / 60, 5);
  });

  it("is asked about again where three of eight strokes lie beside the beat, and not where two do", () => {
    expect(isSteady(kept(60, 20, 2))).toBe(true);
    expect(isSteady(kept(60, 20, 3))).toBe(false);
  });

  it("may lose one place in a long take", () => {
    expect(kept(2000, 900).least).toBeCloseTo(1 - 4 / 2000, 5);
  });
});
