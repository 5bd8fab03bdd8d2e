/** How an exercise sounds. */
import { describe, expect, it } from "vitest";
import { exerciseLine } from "../../client/practice/exercise-line.ts";
import type { Exercise } from "../../src/practice/exercise.ts";

const note = (at: number, beats: number, pitch: number, slide: "from" | "to" | null = null) => ({
  at,
  beats,
  pitch,
  spelling: "C4",
  finger: 1 as const,
  placement: null,
  slide,
});
const exercise = (swing: boolean) =>
  ({
    meter: { beats: 4, unit: 4 },
    swing,
    bars: [
      {
        chords: [{ at: 0, symbol: "C7" }],
        notes: [note(0, 0.5, 60), note(0.5, 0.5, 62)],
        words: null,
        newLine: false,
      },
      {
        chords: [
          { at: 0, symbol: "F7" },
          { at: 2, symbol: "Bb7" },
        ],
        notes: [note(3, 1, 65)],
        words: null,
        newLine: false,
      },
    ],
  }) as unknown as Exercise;

describe("an exercise that is played", () => {
  // At 60 a quarter note lasts a second; four clicks of count-in are a bar of 4/4. [practice]
  it("is counted in by one bar, and keeps its tempo", () => {
    const { notes, clicks, seconds } = exerciseLine(exercise(false), 60, []);
    expect(seconds).toBe(12);
    expect(clicks.map(({ onset, pitch }) => [onset, pitch])).toEqual(
      Array.from({ length: 12 }, (_, i) => [i, i % 4 === 0 ? 1 : 0]),
    );
    expect(notes.map(({ onset, pitch }) => [onset, pitch])).toEqual([
      [4, 60],
      [4.5, 62],
      [11, 65],
    ]);
    expect(exerciseLine(exercise(false), 120, []).seconds).toBe(6);
  });

  // Swung eighths as MusicXML's own example of `swing` has them: first 2, second 1 of three. [lit: MusicXML 4.0]
  it("swings its eighths two to one where it is to be swung", () => {
    const [first, second] = exerciseLine(exercise(true), 60, []).notes;
    expect(second!.onset - first!.onset).toBeCloseTo(2 / 3, 6);
    expect(first!.duration).toBeCloseTo(2 / 3, 6);
    expect(second!.duration).toBeCloseTo(1 / 3, 6);
  });

  it("has the roots of its chords in the bass where they change", () => {
    const own = new Set([60, 62, 65]);
    const bass = exerciseLine(exercise(false), 60, ["bass"]).notes.filter(({ pitch }) => !own.has(pitch));
    const at = (onset: number) => bass.find((one) => one.onset === onset)!.pitch % 12;
    // C, F and B flat are 0, 5 and 10 semitones above C.
    expect([at(4), at(8), at(10)]).toEqual([0, 5, 10]);
  });
});
