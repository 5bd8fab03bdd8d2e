import type { TimeKnot, TimeMap } from "../take/index.ts";
import type { Evidence } from "./lattice/evidence.ts";
import type { Reading } from "./lattice/lay-line.ts";
import { beatTimes, type Sighting } from "./smooth.ts";

/** Beats through the onsets that were struck with them: what the lattice leaves open, a sixteenth, is too coarse. */
export function smoothMap({ form, strokes }: Evidence, reading: Reading): TimeMap {
  const { beats, firstBeat } = reading;
  const sightings: Sighting[] = [];
  let s = 0;
  for (let k = 0; k + 1 < beats.length; k++) {
    const length = beats[k + 1]! - beats[k]!;
    sightings.push({ seconds: beats[k]!, place: k, spread: length / 14 });
    while (s < strokes.count && strokes.time[s]! < beats[k]! - length / 8) s++;
    if (s < strokes.count && Math.abs(strokes.time[s]! - beats[k]!) <= length / 8) {
      sightings.push({ seconds: strokes.time[s]!, place: k, spread: length / 14 });
    }
  }
  sightings.push({ seconds: beats.at(-1)!, place: beats.length - 1, spread: (beats[1]! - beats[0]!) / 14 });
  const usual = (beats.at(-1)! - beats[0]!) / (beats.length - 1);
  const { first, times } = beatTimes(sightings, 0.03 * usual);
  const knots: TimeKnot[] = [];
  times.forEach((seconds, k) => {
    const last = knots.at(-1);
    if (last === undefined || seconds > last.seconds + 1e-3) {
      knots.push({ seconds, position: (firstBeat + first + k) * form.quarters });
    }
  });
  return knots;
}
