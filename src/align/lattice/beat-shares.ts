/**
 * The lattice without its chart: which beats (a moment and a length) the rhythm alone leaves possible. Takes the sum
 * forwards and backwards over moments and lengths only, which costs next to nothing, and names the steps that are
 * worth weighing against every beat of the form.
 */
import type { Evidence } from "./evidence.ts";
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
 */
export function beatShares(
  { strokes: { count: strokes }, room }: Evidence,
  grid: LatticeGrid,
  rhythm: Float64Array,
  strokeAt: Int32Array,
  least: number,
): BeatShares {
  const { lengths } = grid;
  const columns = grid.times.length;
  const kinds = lengths.length;
  const steps = columns * kinds;
  const drift = grid.drift.map(Math.exp);
  const forward = room.take("forward by rhythm", Float64Array, steps).fill(NONE, 0, steps);
  const backward = room.take("backward by rhythm", Float64Array, steps).fill(NONE, 0, steps);
  const into = room.take("into by rhythm", Float64Array, steps).fill(NONE, 0, steps);
  const begin = -Math.log(grid.firstUntil);
  const linear = new Float64Array(kinds);
  let top = NONE;
  for (let c = 0; c < columns; c++) {
    const row = c * kinds;
    if (strokeAt[c]! >= strokes) {
      for (let k = 0; k < kinds; k++) top = Math.max(top, forward[row + k]!);
      continue;
    }
    const high = linearise(forward, row, linear);
    const opening = c <= grid.firstUntil && strokeAt[c] === 0;
    if (high === NONE && !opening) continue;
    for (let k = 0; k < kinds; k++) {
      const target = c + lengths[k]!;
      if (target >= columns) continue;
      const opened = opening && strokeAt[target]! > 0;
      const base = opened ? Math.max(high, begin) : high;
      if (base === NONE) continue;
      let sum = opened ? Math.exp(begin - base) : 0;
      const down = Math.exp(high - base);
      for (let b = 0; b < kinds; b++) sum += drift[b * kinds + k]! * linear[b]! * down;
      if (!(sum > 0)) continue;
      const reached = base + Math.log(sum);
      into[row + k] = reached;
      forward[target * kinds + k] = reached + rhythm[row + k]!;
    }
  }
  let total = 0;
  const open = room.clear("open", Uint8Array, steps);
  const next = new Float64Array(kinds);
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
    for (let k = 0; k < kinds; k++) {
      const target = c + lengths[k]!;
      next[k] = target < columns ? rhythm[row + k]! + backward[target * kinds + k]! : NONE;
    }
    const high = linearise(next, 0, linear);
    if (high === NONE) continue;
    for (let b = 0; b < kinds; b++) {
      if (forward[row + b]! === NONE) continue;
      let sum = 0;
      for (let k = 0; k < kinds; k++) sum += drift[b * kinds + k]! * linear[k]!;
      if (sum > 0) backward[row + b] = high + Math.log(sum);
    }
    const limit = top + Math.log(total) + Math.log(least);
    for (let k = 0; k < kinds; k++) {
      if (into[row + k]! + next[k]! > limit) open[row + k] = 1;
    }
  }
  return { evidence: top + Math.log(total), open };
}

/** Fills `linear` with the exponentials of a row's values over the largest of them, which is returned. */
function linearise(logs: Float64Array, from: number, linear: Float64Array): number {
  let high = NONE;
  for (let k = 0; k < linear.length; k++) high = Math.max(high, logs[from + k]!);
  for (let k = 0; k < linear.length; k++) linear[k] = high === NONE ? 0 : Math.exp(logs[from + k]! - high);
  return high;
}
