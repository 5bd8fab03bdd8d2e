import type { Evidence } from "./evidence.ts";
import { EARLY } from "./line-model.ts";

/** Places that are tried on both sides of a beat, and their distance as a share of the beat. */
const SIDE = 3;
const CELL = 1 / 24;
/** Spread of a beat's length against the last one's, half of which is unrest of the beat itself (see grids.ts). */
const UNREST = 0.056;

/**
 * Moves beats that a coarse grid found to where the rhythm of the strokes has them, at most an eighth of a beat: the
 * best path over a few places for each (Viterbi 1967).
 *
 * @param beats seconds at which each beat begins
 */
export function refineBeats(evidence: Evidence, beats: Float64Array): Float64Array {
  const { strokes } = evidence;
  const places = 2 * SIDE + 1;
  const early = EARLY;
  const n = beats.length;
  const usual = (beats[n - 1]! - beats[0]!) / (n - 1);
  const at = (k: number, j: number) => beats[k]! + (j - SIDE) * CELL * usual;
  /** Length of a beat after one of so many seconds: the usual one, half remembered. */
  const expected = (last: number) => usual ** 0.5 * Math.max(0.2 * usual, last) ** 0.5;
  const lengths = new Float64Array(places);
  const reached = new Float64Array(places * places);
  const came = new Uint8Array(n * places * places);
  let before = new Float64Array(places * places);
  let first = 0;
  for (let k = 0; k + 1 < n; k++) {
    const length = beats[k + 1]! - beats[k]!;
    while (first < strokes.count && strokes.time[first]! < beats[k]! - length) first++;
    reached.fill(Number.NEGATIVE_INFINITY);
    for (let i = 0; i < places; i++) {
      let from = first;
      while (from < strokes.count && strokes.time[from]! < at(k, i) - early * length) from++;
      // The beat before began at its h-th place: from its length the next one is told.
      for (let h = 0; h < places && k > 0; h++) lengths[h] = expected(at(k, i) - at(k - 1, h));
      for (let j = 0; j < places; j++) {
        const seconds = at(k + 1, j) - at(k, i);
        if (seconds < 0.3 * usual) continue;
        let to = from;
        while (to < strokes.count && strokes.time[to]! < at(k + 1, j) - early * length) to++;
        const rhythm = evidence.moments(from, to, at(k, i), seconds);
        for (let h = 0; h < places; h++) {
          const most = before[h * places + i]! + rhythm;
          if (most <= reached[i * places + j]!) continue;
          const drift = Math.log(seconds / (k === 0 ? expected(seconds) : lengths[h]!)) / UNREST;
          const score = most - 0.5 * drift * drift;
          if (score <= reached[i * places + j]!) continue;
          reached[i * places + j] = score;
          came[(k * places + i) * places + j] = h;
        }
      }
    }
    before = reached.slice();
  }
  let best = 0;
  before.forEach((score, pair) => {
    if (score > before[best]!) best = pair;
  });
  const result = beats.slice();
  let [i, j] = [Math.floor(best / places), best % places];
  for (let k = n - 2; k >= 0; k--) {
    result[k + 1] = at(k + 1, j);
    const h = came[(k * places + i) * places + j]!;
    [i, j] = [h, i];
    result[k] = at(k, j);
  }
  return result;
}
