/** The chain of pitches against plain enumeration: every melody of a small keyboard, one by one. */
import { describe, expect, it } from "vitest";
import { DEGREES } from "../../src/chart/index.ts";
import { NO_STEP } from "../../src/motif/near.ts";
import { pitchChain } from "../../src/motif/pitch-chain.ts";
import { generator } from "./planted.ts";

const KEYS = [60, 62, 63, 65, 72];
const random = generator(5);
const line = Array.from({ length: 400 }, () => KEYS[Math.floor(random() ** 1.5 * KEYS.length)]!);
const steps = Int32Array.from({ length: line.length - 1 }, (_, i) =>
  i % 17 === 16 ? NO_STEP : line[i + 1]! - line[i]!,
);
const notes = line.map((pitch) => ({ pitch, degree: "1" as const }));
const model = pitchChain(notes, steps);

/** First-order chain of the line, with the smoothing that the model states: two notes of the lone pitches behind it. */
function stepChance(a: number, b: number): number {
  let [pairs, followed] = [0, 0];
  for (let i = 0; i + 1 < line.length; i++) {
    if (line[i] !== a || steps[i] === NO_STEP) continue;
    followed++;
    if (line[i + 1] === b) pairs++;
  }
  const lone = (2 * (count(b) + 0.5)) / (line.length + 64);
  return (pairs + lone) / (followed + 2);
}

const count = (pitch: number) => line.filter((one) => one === pitch).length;

/** Chance of all melodies of so many notes that a test lets through. */
function chanceWhere(length: number, admits: (melody: readonly number[]) => boolean): number {
  const walk = (melody: readonly number[], chance: number): number => {
    if (melody.length === length) return admits(melody) ? chance : 0;
    return KEYS.reduce(
      (sum, key) => sum + walk([...melody, key], chance * stepChance(melody.at(-1)!, key)),
      0,
    );
  };
  return KEYS.reduce((sum, key) => sum + walk([key], count(key) / line.length), 0);
}

const intervalsOf = (melody: readonly number[]) => melody.slice(1).map((pitch, i) => pitch - melody[i]!);
const contourOf = (interval: number) =>
  Math.abs(interval) <= 2 ? Math.sign(interval) + 3 : interval > 0 ? 5 : 1;

describe("a chain of pitches", () => {
  it("gives intervals the chance of all melodies that have them", () => {
    for (const wanted of [
      [2, 1],
      [-2, 2, 1],
      [0, 0, 3],
    ]) {
      const naive = chanceWhere(wanted.length + 1, (melody) => intervalsOf(melody).join() === wanted.join());
      // A pitch that was never played has a chance too, a small one, which the plain count leaves out.
      expect(model.intervals(wanted, []) / naive).toBeCloseTo(1, 2);
      expect(model.intervals(wanted, [])).toBeGreaterThanOrEqual(naive);
    }
  });

  it("gives contours the chance of all melodies that have them", () => {
    const wanted = [4, 2, 5];
    const naive = chanceWhere(4, (melody) => intervalsOf(melody).map(contourOf).join() === wanted.join());
    expect(model.contours(wanted, [])).toBeCloseTo(naive, 10);
  });

  it("gives degrees the chance over each root, in every octave", () => {
    // Every note was called the root, so each pitch class is a root with the share of its notes.
    const root = DEGREES.indexOf("1") + 1;
    const naive = [0, 2, 3, 5].reduce((sum, pitchClass) => {
      const share = line.filter((pitch) => pitch % 12 === pitchClass).length / line.length;
      return sum + share * chanceWhere(3, (melody) => melody.every((pitch) => pitch % 12 === pitchClass));
    }, 0);
    expect(model.degrees([root, root, root], [])).toBeCloseTo(naive, 10);
  });

  it("expects less of a pattern when some of its places were not heard, and is as before when they are again", () => {
    const before = model.intervals([2, -2], []);
    const places = [...steps.keys()].filter((i) => steps[i] === 2 && steps[i + 1] === -2).slice(1);
    expect(places.length).toBeGreaterThan(1);
    const without = model.intervals(
      [2, -2],
      places.map((start) => ({ start, notes: 3 })),
    );
    expect(without).toBeLessThan(before);
    expect(model.intervals([2, -2], [])).toBe(before);
  });

  it("gives near forms at least the chance of those with the last note changed", () => {
    const near = model.nearIntervals([2, 1, -3], []);
    const changed = chanceWhere(4, (melody) => {
      const [a, b, c] = intervalsOf(melody);
      return a === 2 && b === 1 && c !== -3;
    });
    expect(near).toBeGreaterThanOrEqual(changed);
  });
});
