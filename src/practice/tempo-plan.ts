import type { TempoStep } from "./exercise.ts";

/** Shares of the take's own tempo, slow to full. [practice] */
const STEPS = [0.55, 0.7, 0.85, 1] as const;

/** Slowest click that still carries a line of eighths. [practice] */
const SLOWEST = 50;

/**
 * From slow to the tempo of the take: first in free time where fingers are new, then to a click on every beat, at
 * the end on two and four. Each step asks for two clean rounds. `target` in quarter notes a minute.
 */
export function tempoPlan(target: number, freeFirst: boolean, last: TempoStep["click"]): TempoStep[] {
  const tempos = [...new Set(STEPS.map((share) => Math.max(SLOWEST, 2 * Math.round((share * target) / 2))))];
  const steps = tempos.map(
    (quartersPerMinute, i): TempoStep => ({
      quartersPerMinute,
      click: i < tempos.length / 2 ? "every beat" : last,
      rounds: 2,
    }),
  );
  return freeFirst ? [{ quartersPerMinute: null, click: "none", rounds: 2 }, ...steps] : steps;
}
