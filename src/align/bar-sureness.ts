/** How sure each bar is, by how many readings of the lattice agree on its strokes. */
import type { Chart } from "../chart/types.ts";
import type { Evidence } from "./lattice/evidence.ts";
import type { Reading } from "./lattice/lay-line.ts";

/** Mean share of the strokes in a bar and, where it has few, of those around it. */
export function barSureness(
  { strokes, form }: Evidence,
  { beats, firstBeat, sure }: Reading,
  chart: Chart,
  found: (share: number) => number,
): (bar: number) => number {
  const sums = new Map<number, { sum: number; count: number }>();
  let k = 0;
  for (let s = 0; s < strokes.count; s++) {
    while (k + 2 < beats.length && beats[k + 1]! <= strokes.time[s]! + (beats[k + 1]! - beats[k]!) / 8) k++;
    const bar = Math.floor((firstBeat + k) / form.bar);
    const entry = sums.get(bar) ?? { sum: 0, count: 0 };
    entry.sum += sure[s]!;
    entry.count += 1;
    sums.set(bar, entry);
  }
  const all = sure.reduce((a, b) => a + b, 0) / strokes.count;
  const reach = chart.bars.length;
  return (bar) => {
    for (let away = 0; away < reach; away++) {
      let [sum, count] = [0, 0];
      for (const at of away === 0 ? [bar] : [bar - away, bar + away]) {
        const entry = sums.get(at);
        if (entry === undefined) continue;
        sum += entry.sum;
        count += entry.count;
      }
      if (count > 0) return found(sum / count);
    }
    return found(all);
  };
}
