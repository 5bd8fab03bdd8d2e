/** Other readings of a take by name: half as fast, three beats for two. */
import { chorusBeats, quartersPerBar } from "../chart/index.ts";
import type { Chart } from "../chart/types.ts";
import type { AlignmentAlternative, TimeMap } from "../take/index.ts";
import { positionAt } from "../take/index.ts";
import { countChoruses, placeOf } from "./form.ts";
import type { Evidence } from "./lattice/evidence.ts";
import type { Reading } from "./lattice/lay-line.ts";

/** Ratios of tempo that have names, with the widest distance from them. */
const RATIOS = [
  [2, "twice as fast"],
  [0.5, "half as fast"],
  [1.5, "three beats for two"],
  [2 / 3, "two beats for three"],
  [3, "three times as fast"],
  [1 / 3, "a third as fast"],
] as const;
const NAMED = 1.1;

/** Another reading beside the one that was chosen, as an account names it. */
export function alternativeOf(
  other: Reading,
  best: Reading,
  { form, strokes }: Evidence,
  chart: Chart,
): AlignmentAlternative {
  const ratio = other.pace / best.pace;
  const named = RATIOS.find(([value]) => Math.max(ratio / value, value / ratio) < NAMED);
  const map = other.beats.length > 1 ? mapOf(other, form.quarters) : [];
  const last = positionAt(map, strokes.time[strokes.count - 1]!);
  const bars = Math.max(1, Math.floor((last + 0.15) / quartersPerBar(chart.meter)) + 1);
  const first = Math.max(0, positionAt(map, strokes.time[0]!));
  return {
    tempo: other.pace * form.quarters,
    choruses: countChoruses(bars, chart.bars.length),
    firstBar: placeOf(first % chorusBeats(chart), chart, 1).bar,
    score: other.share,
    why: named?.[1] ?? "another tempo",
  };
}

function mapOf(reading: Reading, quarters: number): TimeMap {
  return Array.from(reading.beats, (seconds, k) => ({
    seconds,
    position: (reading.firstBeat + k) * quarters,
  }));
}
