import { describe, expect, it } from "vitest";
import { isCompound, LEVELS, NO_BEAT, strengthOf } from "../../src/harmony/strength.ts";

const { bar, halfBar, beat, halfBeat, triplet, quarterBeat, between } = LEVELS;

// Levels by the grid of the meter, as in Lerdahl & Jackendoff [memory].
describe("metric strength", () => {
  it.each([
    [
      "4/4",
      [4, 4],
      {
        1: bar,
        2: beat,
        3: halfBar,
        4: beat,
        1.5: halfBeat,
        2.5: halfBeat,
        4.5: halfBeat,
        2.25: quarterBeat,
        2.75: quarterBeat,
        3.333333333: triplet,
        3.666666667: triplet,
        1.1: between,
      },
    ],
    ["3/4", [3, 4], { 1: bar, 2: beat, 3: beat, 2.5: halfBeat }],
    ["2/4", [2, 4], { 1: bar, 2: halfBar, 2.5: halfBeat }],
    ["2/2", [2, 2], { 1: bar, 2: halfBar, 1.5: halfBeat, 1.25: quarterBeat }],
    ["5/4, heard as 3+2", [5, 4], { 1: bar, 2: beat, 3: beat, 4: halfBar, 5: beat }],
    ["7/4, heard as 4+3", [7, 4], { 1: bar, 4: beat, 5: halfBar, 6: beat }],
    [
      "6/8",
      [6, 8],
      { 1: bar, 2: halfBeat, 3: halfBeat, 4: halfBar, 5: halfBeat, 4.5: quarterBeat, 4.3: between },
    ],
    ["9/8", [9, 8], { 1: bar, 4: beat, 7: beat, 5: halfBeat }],
    ["12/8", [12, 8], { 1: bar, 4: beat, 7: halfBar, 10: beat, 12: halfBeat }],
    ["3/8", [3, 8], { 1: bar, 2: beat, 2.5: halfBeat }],
  ] as const)("in %s", (_, [beats, unit], expected) => {
    for (const [at, strength] of Object.entries(expected)) {
      expect([at, strengthOf(Number(at), { beats, unit })]).toEqual([at, strength]);
    }
  });

  it("falls from level to level", () => {
    const levels = [bar, halfBar, beat, halfBeat, triplet, quarterBeat, between];
    expect(levels).toEqual([...levels].sort((a, b) => b - a));
    expect(new Set(levels).size).toBe(levels.length);
    expect(levels[0]).toBe(1);
    expect(levels.at(-1)).toBeGreaterThan(0);
  });

  it("is the same everywhere where there is no beat", () => {
    expect(strengthOf(null, { beats: 4, unit: 4 })).toBe(NO_BEAT);
  });

  it("goes round with the bar, so that beat 0 is the last beat of the bar before", () => {
    expect(strengthOf(0, { beats: 4, unit: 4 })).toBe(beat);
    expect(strengthOf(5, { beats: 4, unit: 4 })).toBe(bar);
    expect(strengthOf(4.9999999, { beats: 4, unit: 4 })).toBe(bar);
  });

  it("hears eighths in threes from six of them on", () => {
    const compound = [
      [6, 8],
      [9, 8],
      [12, 8],
      [6, 16],
    ] as const;
    const simple = [
      [3, 8],
      [4, 4],
      [6, 4],
      [5, 8],
      [7, 8],
      [8, 8],
    ] as const;
    for (const [beats, unit] of compound) expect(isCompound({ beats, unit })).toBe(true);
    for (const [beats, unit] of simple) expect(isCompound({ beats, unit })).toBe(false);
  });
});
