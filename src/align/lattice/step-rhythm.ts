/** The rhythm of each step of a lattice: which strokes are in it, and how likely they are there. */
import type { Evidence } from "./evidence.ts";
import type { LatticeGrid } from "./lattice-types.ts";

/** First stroke that belongs to a beat beginning at each column or later. */
export function strokesAt(evidence: Evidence, grid: LatticeGrid): Int32Array {
  const { time, count } = evidence.strokes;
  const columns = grid.times.length;
  const strokeAt = evidence.room.take("strokeAt", Int32Array, columns);
  let s = 0;
  for (let c = 0; c < columns; c++) {
    while (s < count && time[s]! < grid.times[c]! - grid.early[c]!) s++;
    strokeAt[c] = s;
  }
  return strokeAt;
}

/** Log density of the rhythm of each step; -Infinity where a step is impossible. */
export function rhythmOf(evidence: Evidence, grid: LatticeGrid, strokeAt: Int32Array): Float64Array {
  const { times, lengths } = grid;
  const kinds = lengths.length;
  const size = times.length * kinds;
  const rhythm = evidence.room.take("rhythm", Float64Array, size).fill(Number.NEGATIVE_INFINITY, 0, size);
  for (let c = 0; c < times.length; c++) {
    if (strokeAt[c]! >= evidence.strokes.count) break;
    for (let k = 0; k < kinds; k++) {
      const end = c + lengths[k]!;
      if (end >= times.length) break;
      rhythm[c * kinds + k] = evidence.rhythm(
        strokeAt[c]!,
        strokeAt[end]!,
        times[c]!,
        times[end]! - times[c]!,
      );
    }
  }
  return rhythm;
}
