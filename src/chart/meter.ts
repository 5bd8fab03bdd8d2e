import type { Chart, Meter } from "./types.ts";

/**
 * Length of a bar in quarter-note beats.
 * @example quartersPerBar({ beats: 6, unit: 8 }) // 3
 */
export function quartersPerBar(meter: Meter): number {
  return (meter.beats * 4) / meter.unit;
}

/** Length of one chorus in quarter-note beats. */
export function chorusBeats(chart: Chart): number {
  return chart.bars.length * quartersPerBar(chart.meter);
}
