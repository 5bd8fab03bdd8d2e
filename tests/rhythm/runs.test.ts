import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { findRuns, runNotes } from "../../src/rhythm/index.ts";
import { even, played } from "./played.ts";

function runsOf(pitches: readonly number[]) {
  return findRuns(played(even(pitches, 0, 0.5)));
}

describe("stepwise runs", () => {
  it("are five or more notes in one direction by one or two semitones", () => {
    expect(runsOf([60, 62, 64, 65])).toEqual([]);
    expect(runsOf([60, 62, 64, 65, 67])).toMatchObject([
      { firstNote: "n1", lastNote: "n5", direction: "up", length: 5, bar: 1, beat: 1, leap: null },
    ]);
    expect(runsOf([60, 62, 64, 67, 69])).toEqual([]);
    expect(runsOf([60, 60, 60, 60, 60])).toEqual([]);
  });

  it("may turn on a note that ends one and starts the next, and is counted once in their share", () => {
    const notes = played(even([60, 62, 64, 65, 67, 65, 64, 62, 60], 0, 0.5));
    const runs = findRuns(notes);
    expect(runs.map((run) => [run.firstNote, run.lastNote, run.direction])).toEqual([
      ["n1", "n5", "up"],
      ["n5", "n9", "down"],
    ]);
    expect(runNotes(notes, runs).size).toBe(9);
  });

  it("tell the leap that follows, and none after a breath", () => {
    expect(runsOf([60, 62, 64, 65, 67, 72])[0]!.leap).toBe(5);
    expect(runsOf([72, 71, 69, 67, 65, 60])[0]!.leap).toBe(-5);
    expect(runsOf([60, 62, 64, 65, 67, 66])[0]!.leap).toBeNull();
    const breath = played([...even([60, 62, 64, 65, 67], 0, 0.5), { pitch: 79, at: 8, beats: 1 }]);
    expect(findRuns(breath)[0]!.leap).toBeNull();
  });

  it("stop at a breath", () => {
    expect(findRuns(played([...even([60, 62, 64], 0, 0.5), ...even([65, 67, 69], 8, 0.5)]))).toEqual([]);
  });

  it("agree with a plain reading of every stretch of an even line", () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -3, max: 3 }), { minLength: 1, maxLength: 80 }), (steps) => {
        const pitches = [64];
        for (const step of steps)
          pitches.push(Math.min(90, Math.max(40, pitches[pitches.length - 1]! + step)));
        const small = (i: number) => {
          const step = (pitches[i + 1] ?? 999) - pitches[i]!;
          return Math.abs(step) <= 2 ? Math.sign(step) : 0;
        };
        const expected: [string, string][] = [];
        for (let from = 0; from < pitches.length; from++) {
          if (small(from) === 0 || (from > 0 && small(from - 1) === small(from))) continue;
          let to = from;
          while (small(to) === small(from)) to++;
          if (to - from >= 4) expected.push([`n${from + 1}`, `n${to + 1}`]);
        }
        expect(runsOf(pitches).map((run) => [run.firstNote, run.lastNote])).toEqual(expected);
      }),
    );
  });
});
