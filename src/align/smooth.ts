/**
 * From events with places to a curve of time: beat times that pass near the onsets and change tempo as little as
 * they must. Penalised least squares on the second differences of the beat times (Whittaker 1923), with the weight
 * of stray onsets taken down (Huber 1964).
 */

/** An onset with its place. */
export interface Sighting {
  readonly seconds: number;
  /** Place in quarter notes as played: a swung off-beat where it is heard. */
  readonly place: number;
  /** Standard deviation of the onset around its place, in seconds. */
  readonly spread: number;
}

/**
 * Times of whole quarter notes from the first sighting to the last.
 *
 * @param sightings in order of time, places rising or equal
 * @param freedom standard deviation of the change from one quarter note to the next, in seconds
 */
export function beatTimes(
  sightings: readonly Sighting[],
  freedom: number,
): { readonly first: number; readonly times: Float64Array } {
  const first = Math.floor(sightings[0]!.place);
  const last = Math.max(first + 1, Math.ceil(sightings.at(-1)!.place));
  const n = last - first + 1;
  let times: Float64Array = new Float64Array(n);
  const weights = new Float64Array(sightings.length).fill(1);
  for (let round = 0; round < 3; round++) {
    times = solve(sightings, weights, first, n, freedom);
    sightings.forEach((sighting, i) => {
      const error = Math.abs(sighting.seconds - timeBetween(times, sighting.place - first)) / sighting.spread;
      weights[i] = error < 1.5 ? 1 : 1.5 / error;
    });
  }
  return { first, times };
}

/** Straight line through sightings, robust against strays: seconds = start + period * place. */
export function straightLine(sightings: readonly Sighting[]): { start: number; period: number } {
  const weights = new Float64Array(sightings.length).fill(1);
  let start = 0;
  let period = 1;
  for (let round = 0; round < 6; round++) {
    let [w, x, y, xx, xy] = [0, 0, 0, 0, 0];
    sightings.forEach(({ seconds, place, spread }, i) => {
      const weight = weights[i]! / (spread * spread);
      w += weight;
      x += weight * place;
      y += weight * seconds;
      xx += weight * place * place;
      xy += weight * place * seconds;
    });
    const across = w * xx - x * x;
    period = across > 0 ? (w * xy - x * y) / across : period;
    start = (y - period * x) / w;
    sightings.forEach(({ seconds, place, spread }, i) => {
      const error = Math.abs(seconds - start - period * place) / spread;
      weights[i] = error < 1.5 ? 1 : 1.5 / error;
    });
  }
  return { start, period };
}

/** The middle value; the upper of two middle ones. NaN for an empty row. */
export function medianOf(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[sorted.length >> 1] ?? Number.NaN;
}

/** Time at `x` quarter notes (or other steps) after the first of `times`, straight between its neighbours. */
export function timeBetween(times: Float64Array, x: number): number {
  const k = Math.max(0, Math.min(times.length - 2, Math.floor(x)));
  return times[k]! + (x - k) * (times[k + 1]! - times[k]!);
}

/** Solves the normal equations, a symmetric matrix of bandwidth two, by LDL' factors. */
function solve(
  sightings: readonly Sighting[],
  weights: Float64Array,
  first: number,
  n: number,
  freedom: number,
): Float64Array {
  const diagonal = new Float64Array(n);
  const one = new Float64Array(n);
  const two = new Float64Array(n);
  const right = new Float64Array(n);
  sightings.forEach(({ seconds, place, spread }, i) => {
    const k = Math.max(0, Math.min(n - 2, Math.floor(place - first)));
    const b = place - first - k;
    const a = 1 - b;
    const weight = weights[i]! / (spread * spread);
    diagonal[k]! += weight * a * a;
    one[k]! += weight * a * b;
    diagonal[k + 1]! += weight * b * b;
    right[k]! += weight * a * seconds;
    right[k + 1]! += weight * b * seconds;
  });
  const stiff = 1 / (freedom * freedom);
  for (let k = 1; k + 1 < n; k++) {
    diagonal[k - 1]! += stiff;
    diagonal[k]! += 4 * stiff;
    diagonal[k + 1]! += stiff;
    one[k - 1]! -= 2 * stiff;
    one[k]! -= 2 * stiff;
    two[k - 1]! += stiff;
  }
  // A little of nothing keeps two unknowns with one sighting solvable.
  for (let k = 0; k < n; k++) diagonal[k]! += 1e-9 * stiff;
  for (let k = 0; k < n; k++) {
    if (k >= 1) diagonal[k]! -= one[k - 1]! ** 2 * diagonal[k - 1]!;
    if (k >= 2) diagonal[k]! -= two[k - 2]! ** 2 * diagonal[k - 2]!;
    if (k + 1 < n) {
      if (k >= 1) one[k]! -= two[k - 1]! * one[k - 1]! * diagonal[k - 1]!;
      one[k]! /= diagonal[k]!;
    }
    if (k + 2 < n) two[k]! /= diagonal[k]!;
  }
  for (let k = 0; k < n; k++) {
    if (k >= 1) right[k]! -= one[k - 1]! * right[k - 1]!;
    if (k >= 2) right[k]! -= two[k - 2]! * right[k - 2]!;
  }
  for (let k = 0; k < n; k++) right[k]! /= diagonal[k]!;
  for (let k = n - 1; k >= 0; k--) {
    if (k + 1 < n) right[k]! -= one[k]! * right[k + 1]!;
    if (k + 2 < n) right[k]! -= two[k]! * right[k + 2]!;
  }
  return right;
}
