/**
 * Passages that hurry or drag, of beats written by arithmetic: how long they may be, what is the usual unrest of a beat, how
 * softly they may begin and end, and how many are tried. How many takes of people are named wrongly with other values stands
 * beside each in the source.
 */
import { describe, expect, it } from "vitest";
import { passagesOf, unsteady } from "../../src/align/lattice/steadied.ts";

/** Beats of these lengths (of half a second), so many of each. */
function beatsOf(...parts: readonly (readonly [many: number, length: number])[]): Float64Array {
  const beats = [0];
  for (const [many, length] of parts) {
    for (let k = 0; k < many; k++) beats.push(beats.at(-1)! + length / 2);
  }
  return Float64Array.from(beats);
}

describe("the passage that is not steady", () => {
  // A tempo that wanders by less than four in a hundred is steady playing.
  it("ends where beats are within their usual unrest", () => {
    expect(unsteady(beatsOf([60, 1], [20, 0.9], [10, 0.953], [60, 1]))).toMatchObject({ from: 60, to: 90 });
    expect(unsteady(beatsOf([60, 1], [20, 0.9], [10, 0.967], [60, 1]))).toMatchObject({ from: 60, to: 80 });
  });

  // Twice the 24 beats that a grid needs to take four beats in: three hurried stretches of ten in 48 beats, and one more.
  it("is at most 48 beats long", () => {
    const hurried = (last: number) =>
      beatsOf([60, 1], [10, 0.8], [9, 1], [10, 0.8], [9, 1], [last, 0.8], [60, 1]);
    expect(unsteady(hurried(10))).toMatchObject({ from: 60, to: 108 });
    expect(unsteady(hurried(11))).toMatchObject({ from: 60, to: 108 });
  });
});

describe("passages that are tried for a bar", () => {
  // Eight beats that are 2.4 too short, and so many on either side that are .8 shorter together; then the player waits.
  it.each([4, 8, 12, 16, 20])("are as wide as it takes to begin and end softly: %d beats", (soft) => {
    const edge = [soft, 1 - 0.8 / soft] as const;
    const beats = beatsOf([60, 1], [8, 1.1], edge, [8, 0.7], edge, [8, 1.1], [60, 1]);
    const from = 68 + soft;
    const [first] = passagesOf(beats, { from, to: from + 8 }, -4);
    expect(first).toMatchObject({ from: 68, to: 76 + 2 * soft });
  });

  // Softer than that is no squeeze: of 24 beats on either side none are tried.
  it("are no wider than 20 beats on either side", () => {
    const beats = beatsOf([60, 1], [24, 1 - 1.5 / 24], [8, 0.875], [24, 1 - 1.5 / 24], [60, 1]);
    const found = passagesOf(beats, { from: 84, to: 92 }, -4);
    for (const { from, to } of found) expect(to - from).toBeLessThanOrEqual(48);
    expect(found.length).toBeGreaterThan(0);
  });

  it("are eight where more would do", () => {
    expect(passagesOf(beatsOf([60, 1], [24, 5 / 6], [60, 1]), { from: 60, to: 84 }, -4)).toHaveLength(8);
  });
});
