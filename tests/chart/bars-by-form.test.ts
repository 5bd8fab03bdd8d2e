import { describe, expect, it } from "vitest";
import { barLinesByForm } from "../../src/chart/bars-by-form.ts";
import { formChart } from "../../src/chart/index.ts";
import type { Note } from "../../src/take/index.ts";
import { type Comping, compingTake, noteAt } from "./comping-take.ts";

const human: Omit<Comping, "voicing" | "seed"> = { choruses: 2, tempo: 140, jitter: 0.02, early: 0.2 };

describe("bar lines found by the form", () => {
  /** A blues of two choruses at 150: bars of 1.6 seconds. */
  const BAR = 1.6;
  const played = (how: Partial<Comping> = {}, form = "blues-quick-change", key = "Eb") =>
    compingTake(formChart(form, key), {
      ...human,
      choruses: 2,
      tempo: 150,
      jitter: 0.01,
      early: 0,
      voicing: "shell",
      seed: 31,
      ...how,
    }).notes;
  const moved = (notes: readonly Note[], to: (seconds: number) => number) =>
    notes.map((note) => {
      const onset = to(note.onset);
      return { ...note, onset, duration: to(note.onset + note.duration) - onset };
    });
  /** How far the lines are from where they are played at worst, in seconds. */
  const farthest = (lines: readonly number[], to: (seconds: number) => number = (seconds) => seconds) =>
    Math.max(...lines.slice(0, -1).map((line, bar) => Math.abs(line - to(bar * BAR))));

  it("are where the bars are played, in even time", () => {
    const lines = barLinesByForm(played())!;
    expect(lines).toHaveLength(25);
    // Frames of a fifth of a second, chords that sound on: within two frames.
    expect(farthest(lines)).toBeLessThan(0.45);
    expect(lines.toSorted((a, b) => a - b)).toEqual(lines);
    expect(Math.abs(lines.at(-1)! - 24 * BAR)).toBeLessThan(0.5);
  });

  it("are where the bars are played, when time runs ahead and falls behind", () => {
    const breathing = (seconds: number) => seconds + 0.8 * Math.sin(seconds / 8);
    const lines = barLinesByForm(moved(played(), breathing))!;
    expect(lines).toHaveLength(25);
    expect(farthest(lines, breathing)).toBeLessThan(0.5);
    const faster = (seconds: number) => seconds - 0.0008 * seconds * seconds;
    const rushed = barLinesByForm(moved(played(), faster))!;
    expect(rushed).toHaveLength(25);
    expect(farthest(rushed, faster)).toBeLessThan(0.5);
  });

  it("count from the first note, wherever the take begins", () => {
    const early = barLinesByForm(played())!;
    const late = barLinesByForm(moved(played(), (seconds) => seconds + 20))!;
    expect(late).toHaveLength(25);
    for (const [bar, line] of late.entries()) expect(line).toBeCloseTo(early[bar]! + 20, 6);
  });

  it("fit a form of any number of choruses", () => {
    for (const choruses of [1, 3]) {
      const lines = barLinesByForm(played({ choruses, seed: 32 }, "blues-eight-bar", "A"))!;
      expect(lines).toHaveLength(8 * choruses + 1);
      expect(farthest(lines)).toBeLessThan(0.5);
    }
  });

  it("are never closer than 0.8 seconds nor further apart than 6, on the whole", () => {
    for (const tempo of [60, 260]) {
      const lines = barLinesByForm(played({ tempo }))!;
      const mean = (lines.at(-1)! - lines[0]!) / (lines.length - 1);
      expect(mean).toBeGreaterThanOrEqual(0.8);
      expect(mean).toBeLessThanOrEqual(6);
      expect(mean).toBeCloseTo(240 / tempo, 0);
    }
  });

  it("are not sought in less than four bars' time, nor in silence", () => {
    expect(barLinesByForm([])).toBeNull();
    expect(barLinesByForm([noteAt(1, 48, 0, 3.1, 120)])).toBeNull();
    expect(barLinesByForm([noteAt(1, 48, 5, 3.1, 120)])).toBeNull();
    expect(barLinesByForm([noteAt(1, 48, 0, 1, 120), noteAt(2, 52, 9, 1, 120)])).not.toBeNull();
  });
});
