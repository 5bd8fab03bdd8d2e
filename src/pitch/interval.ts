/** Intervals: letters and semitones, both upward, so that a fourth stays a fourth. */
import { nameOfStep, naturalClass, partsOf } from "./name.ts";
import { mod } from "./pitch-class.ts";

/** A transposition or an interval. */
export interface Interval {
  /** Steps of the staff. */
  readonly steps: number;
  readonly semitones: number;
}

export const UNISON: Interval = { steps: 0, semitones: 0 };

/**
 * Moves the name of a pitch class.
 * @example moveName("Bb", { steps: 1, semitones: 2 }) // "C"
 */
export function moveName(name: string, by: Interval): string {
  if (by.steps === 0 && by.semitones === 0) return name;
  const { step, alter } = partsOf(name);
  const to = mod(step + by.steps, 7);
  const octaves = Math.floor((step + by.steps) / 7);
  return nameOfStep(to, alter + naturalClass(step) + by.semitones - naturalClass(to) - 12 * octaves);
}

/**
 * The interval from a root up to a degree of its major scale, altered by the signs before it.
 * @example intervalOfDegree("b3") // { steps: 2, semitones: 3 }
 * @example intervalOfDegree("b13") // { steps: 12, semitones: 20 }
 */
export function intervalOfDegree(degree: string): Interval {
  const steps = Number.parseInt(degree.replace(/^[b#]+/, ""), 10) - 1;
  const alter = degree.startsWith("b") ? -degree.lastIndexOf("b") - 1 : degree.lastIndexOf("#") + 1;
  return { steps, semitones: naturalClass(steps % 7) + 12 * Math.floor(steps / 7) + alter };
}

/** Letters that an interval of so many semitones usually has: the seconds, thirds ... of a major or minor scale. */
const USUAL_STEPS = [0, 1, 1, 2, 2, 3, 3, 4, 5, 5, 6, 6] as const;

/**
 * Letters moved by so many semitones where nothing says: the nearest usual interval (a tritone is a fourth).
 * @example usualSteps(-2) // -1
 */
export function usualSteps(semitones: number): number {
  return 7 * Math.floor(semitones / 12) + USUAL_STEPS[mod(semitones, 12)]!;
}
