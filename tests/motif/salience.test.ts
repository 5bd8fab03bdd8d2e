/** How an idea comes back, in words that any teacher uses [practice]: moved on at once, run through, taken up again. */
import { describe, expect, it } from "vitest";
import { findMotifs, type MotifNote } from "../../src/motif/index.ts";
import { keptOf } from "../../src/motif/salience.ts";
import { chanceFrom } from "../../src/statistics/chance.ts";

const IDEA = [0, 4, 3, 7, 6, 2];
const BEATS = 0.5;

/** Phrases of pitches, a bar of rest after each. */
function lineOf(phrases: readonly (readonly number[])[]): MotifNote[] {
  let position = 0;
  return phrases.flatMap((pitches, k) => {
    const notes = pitches.map((pitch, i) => {
      const at = position + i * BEATS;
      return {
        id: `p${k}n${i}`,
        pitch,
        onset: at / 2,
        duration: BEATS / 2,
        position: at,
        beats: BEATS,
        chorus: 1,
        bar: 1 + Math.floor(at / 4),
        beat: 1 + (at % 4),
        degree: null,
        finger: null,
        phrase: `p${k}`,
      };
    });
    position += pitches.length * BEATS + 4;
    return notes as unknown as MotifNote[];
  });
}

const chance = chanceFrom(3);
const noise = (count: number) => Array.from({ length: count }, () => 55 + Math.floor(chance() * 24));
const idea = (by: number) => IDEA.map((step) => 60 + by + step);
const wayOfFirst = (phrases: readonly (readonly number[])[]) => findMotifs(lineOf(phrases), { seed: 1 })[0];

describe("an idea", () => {
  it("that is moved on from where it ended is a sequence", () => {
    const found = wayOfFirst([
      noise(14),
      [...idea(0), ...idea(2), ...idea(4), ...idea(5)],
      noise(14),
      noise(14),
    ]);
    expect(found).toMatchObject({ way: "sequence" });
  });
  it("that lines run through here and there is a formula", () => {
    const phrases = [0, 5, -3, 2, 7].map((by) => [...noise(5), ...idea(by), ...noise(4)]);
    expect(wayOfFirst(phrases)).toMatchObject({ way: "formula", openings: 0 });
  });
  it("that phrases begin with is one that returns", () => {
    const phrases = [0, 5, -3, 2, 7].map((by) => [...idea(by), ...noise(6)]);
    expect(wayOfFirst(phrases)).toMatchObject({ way: "return", openings: 1 });
  });
});

it("is ranked by length, openings, spread and exactness, from half its weight to the whole", () => {
  expect(keptOf({ length: 0, openings: 0, spread: 0, exactness: 0 })).toBe(0.5);
  expect(keptOf({ length: 1, openings: 1, spread: 1, exactness: 1 })).toBe(1);
  expect(keptOf({ length: 1, openings: 0, spread: 1, exactness: 0 })).toBe(0.75);
});
