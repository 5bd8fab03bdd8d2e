import { transposeChart } from "./transpose.ts";
import type { Chart } from "./types.ts";

/**
 * True when two charts have the same chords at the same places, in whatever keys they stand.
 * @example sameChanges(parseChart("key: F\n| F7 | Bb7 |"), parseChart("key: C\n| C7 | F7 |")) // true
 */
export function sameChanges(a: Chart, b: Chart): boolean {
  if (a.key.mode !== b.key.mode || a.bars.length !== b.bars.length) return false;
  if (a.meter.beats !== b.meter.beats || a.meter.unit !== b.meter.unit) return false;
  const moved = transposeChart(b, a.key);
  const home = transposeChart(a, a.key);
  return home.bars.every((bar, i) => {
    const other = moved.bars[i]!.chords;
    return (
      bar.chords.length === other.length &&
      bar.chords.every(
        ({ beat, chord }, k) => beat === other[k]!.beat && chord?.symbol === other[k]!.chord?.symbol,
      )
    );
  });
}
