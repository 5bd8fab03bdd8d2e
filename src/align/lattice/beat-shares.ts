/**
 * The lattice without its chart: which beats (a moment and a length) the rhythm alone leaves possible. Takes the sum
 * forwards and backwards over moments and lengths only, which costs next to nothing, and names the steps that are
 * worth weighing against every beat of the form.
 */
import type { LatticeGrid } from "./lattice-types.ts";

export interface BeatShares {
  /** Log evidence of the strokes under this grid by their rhythm alone. */
  readonly evidence: number;
  /** 1 for each step `[column * lengths + length]` that is worth following. */
  readonly open: Uint8Array;
}

const NONE = Number.NEGATIVE_INFINITY;

/**
 * @param rhythm log density of each step, `[column * lengths + length]`, -Infinity where a step is impossible
 * @param strokeAt first stroke of each column
 * @param least steps whose share of all readings is below this are closed
 * @param power power to which the rhythm is taken: below 1 it leaves more to the chart
 */
export function beatShares(
  grid: LatticeGrid,
  rhythm: Float64Array,
  strokeAt: Int32Array,
  strokes: number,
  { least, power }: { least: number; power: number },
): BeatShares {
  const { lengths } = grid;
  const columns = grid.times.length;
  const kinds = lengths.length;
  const drift = grid.drift.map(Math.exp);
  const forward = new Float64Array(columns * kinds).fill(NONE);
  const backward = new Float64Array(columns * kinds).fill(NONE);
  const into = new Float64Array(columns * kinds).fill(NONE);
  const begin = -Math.log(grid.firstUntil);
  let top = NONE;
  for (let c = 0; c < columns; c++) {
    const row = c * kinds;
    if (strokeAt[c]! >= strokes) {
      for (let k = 0; k < kinds; k++) top = Math.max(top, forward[row + k]!);
      continue;
    }
    let high = NONE;
    for (let b = 0; b < kinds; b++) high = Math.max(high, forward[row + b]!);
    const opening = c <= grid.firstUntil && strokeAt[c] === 0;
    if (high === NONE && !opening) continue;
    for (let k = 0; k < kinds; k++) {
      const target = c + lengths[k]!;
      if (target >= columns) continue;
      let sum = opening && strokeAt[target]! > 0 ? Math.exp(begin - Math.max(high, begin)) : 0;
      const base = opening && strokeAt[target]! > 0 ? Math.max(high, begin) : high;
      if (base === NONE) continue;
      for (let b = 0; b < kinds; b++) {
        const value = forward[row + b]! - base;
        if (value > -30) sum += drift[b * kinds + k]! * Math.exp(value);
      }
      if (!(sum > 0)) continue;
      const reached = base + Math.log(sum);
      into[row + k] = reached;
      forward[target * kinds + k] = reached + power * rhythm[row + k]!;
    }
  }
  let total = 0;
  const open = new Uint8Array(columns * kinds);
  for (let c = columns - 1; c >= 0; c--) {
    const row = c * kinds;
    if (strokeAt[c]! >= strokes) {
      for (let k = 0; k < kinds; k++) {
        if (forward[row + k]! === NONE) continue;
        backward[row + k] = 0;
        total += Math.exp(forward[row + k]! - top);
      }
      continue;
    }
    let high = NONE;
    const next = (k: number) => {
      const target = c + lengths[k]!;
      return target < columns ? power * rhythm[row + k]! + backward[target * kinds + k]! : NONE;
    };
    for (let k = 0; k < kinds; k++) high = Math.max(high, next(k));
    if (high === NONE) continue;
    for (let b = 0; b < kinds; b++) {
      if (forward[row + b]! === NONE) continue;
      let sum = 0;
      for (let k = 0; k < kinds; k++) {
        const value = next(k) - high;
        if (value > -30) sum += drift[b * kinds + k]! * Math.exp(value);
      }
      if (sum > 0) backward[row + b] = high + Math.log(sum);
    }
    const limit = top + Math.log(total) + Math.log(least);
    for (let k = 0; k < kinds; k++) {
      if (into[row + k]! + next(k) > limit) open[row + k] = 1;
    }
  }
  return { evidence: top + Math.log(total), open };
}
