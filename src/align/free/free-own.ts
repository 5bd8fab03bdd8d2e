/** The tables as a take has them itself: where in a beat its strokes fall, by beats that were found with those of all. */
import { type FreeTables, PARTS } from "./free-model.ts";
import type { FreeStrokes } from "./free-strokes.ts";

/** Strokes that the tables of all count for beside the take's own. */
const OF_ALL = 100;

/**
 * A take keeps to its own figures, triplets here and sixteenths there: counted over a first reading, they tell the
 * beats that it missed.
 *
 * @param beats seconds, rising
 */
export function ownTables(tables: FreeTables, { time, count }: FreeStrokes, beats: Float64Array): FreeTables {
  const counts = tables.parts.map((odds) => (OF_ALL * Math.exp(odds)) / PARTS);
  let b = 0;
  for (let e = 0; e < count; e++) {
    while (b + 1 < beats.length && beats[b + 1]! <= time[e]!) b++;
    const [from, to] = [beats[b]!, beats[b + 1]];
    if (to === undefined || from >= time[e]!) continue;
    counts[Math.min(PARTS - 1, Math.floor((PARTS * (time[e]! - from)) / (to - from)))]!++;
  }
  const sum = counts.reduce((a, n) => a + n, 0);
  return { ...tables, parts: counts.map((n) => Math.log((n * PARTS) / sum)) };
}
