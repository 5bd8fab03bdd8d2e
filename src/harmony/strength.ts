/** Metric strength: how strong a place in the bar is. */
import type { Meter } from "../chart/types.ts";

/** What each metrical level weighs, from the bar line down. Only their order matters to the rules. [practice] */
export const LEVELS = {
  bar: 1,
  halfBar: 0.8,
  beat: 0.6,
  halfBeat: 0.4,
  triplet: 0.3,
  quarterBeat: 0.2,
  between: 0.1,
} as const;

/** Where nothing is known of the beat (rubato), every place is as strong as every other. */
export const NO_BEAT = 0.5;

/** Beats (in the meter's unit) that open the second group of a bar of five or seven. [practice] */
const GROUPS: Readonly<Record<number, number>> = { 5: 3, 7: 4 };

const NEAR = 1e-6;

/**
 * Strength, 0 to 1, of a beat of the bar (in the meter's unit, 1 the first): 1 on the bar's first beat, falling by
 * metrical level. Meters of 6, 9 and 12 eighths are heard in groups of three; bars of five and seven as 3+2 and 4+3.
 * A null beat (rubato) gives `NO_BEAT`. Source of the idea: Lerdahl & Jackendoff 1983 [memory].
 *
 * @example in 4/4: beat 1 is 1, beat 3 is 0.8, beat 2 is 0.6, the and of 2 is 0.4; in 6/8: beat 4 is 0.8
 */
export function strengthOf(beat: number | null, meter: Meter): number {
  if (beat === null) return NO_BEAT;
  const offset = (((beat - 1) % meter.beats) + meter.beats) % meter.beats;
  if (near(offset, 0) || near(offset, meter.beats)) return LEVELS.bar;
  return isCompound(meter) ? compoundStrength(offset, meter) : simpleStrength(offset, meter);
}

/** True for meters whose beat is three of the written unit: 6/8, 9/8, 12/8. */
export function isCompound(meter: Meter): boolean {
  return meter.unit >= 8 && meter.beats > 3 && meter.beats % 3 === 0;
}

function simpleStrength(offset: number, meter: Meter): number {
  const half = GROUPS[meter.beats] ?? meter.beats / 2;
  if (onGrid(offset, 1)) {
    return near(offset, half) ? LEVELS.halfBar : LEVELS.beat;
  }
  if (onGrid(offset, 1 / 2)) return LEVELS.halfBeat;
  if (onGrid(offset, 1 / 3)) return LEVELS.triplet;
  if (onGrid(offset, 1 / 4)) return LEVELS.quarterBeat;
  return LEVELS.between;
}

function compoundStrength(offset: number, meter: Meter): number {
  if (onGrid(offset, 3)) {
    return near(offset, meter.beats / 2) ? LEVELS.halfBar : LEVELS.beat;
  }
  if (onGrid(offset, 1)) return LEVELS.halfBeat;
  if (onGrid(offset, 1 / 2)) return LEVELS.quarterBeat;
  return LEVELS.between;
}

function onGrid(offset: number, step: number): boolean {
  return near(offset / step, Math.round(offset / step));
}

function near(a: number, b: number): boolean {
  return Math.abs(a - b) < NEAR;
}
