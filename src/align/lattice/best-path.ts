import type { Laid } from "./lattice-types.ts";
import type { Masses } from "./pass-backward.ts";
import type { StepTable } from "./step-table.ts";

/**
 * The path whose strokes lie where most readings have them: each step earns the shares of its strokes at its beat of
 * the form, and what readings agree on its moment and length.
 */
export function bestPath(
  table: StepTable,
  ends: readonly number[],
  { gamma, shares, total }: Masses,
): Laid | null {
  const { size, columns, lengths } = table;
  const kinds = lengths.length;
  const best = new Float32Array(table.rows * size).fill(-1);
  const from = new Int32Array(table.rows * size).fill(-1);
  for (let c = 0; c < columns; c++) {
    for (let k = 0; k < kinds; k++) {
      const target = c + lengths[k]!;
      if (target >= columns) continue;
      const row = table.rowOf[target * kinds + k]!;
      if (row < 0) continue;
      const [first, last] = [table.strokeAt[c]!, table.strokeAt[target]!];
      const opening = first === 0 && c <= table.grid.firstUntil;
      for (let p = 0; p < size; p++) {
        const mass = gamma[row * size + p]!;
        if (mass < 1e-6) continue;
        let before = opening ? 0 : -1;
        let came = -1;
        for (let b = 0; b < kinds; b++) {
          const source = table.rowOf[c * kinds + b]!;
          if (source < 0 || table.drift[b * kinds + k]! < 1e-7) continue;
          const earned = best[source * size + p]!;
          if (earned > before) {
            before = earned;
            came = source * size + p;
          }
        }
        if (before < 0) continue;
        let earned = before + 2 * mass;
        for (let s = first; s < last; s++) earned += shares[s * size + p]!;
        const q = p + 1 === size ? 0 : p + 1;
        best[row * size + q] = earned;
        from[row * size + q] = came;
      }
    }
  }
  let at = -1;
  let most = -1;
  for (const row of ends) {
    for (let p = 0; p < size; p++) {
      if (best[row * size + p]! > most) {
        most = best[row * size + p]!;
        at = row * size + p;
      }
    }
  }
  if (at < 0) return null;
  return pathTo(table, at, from, shares, total);
}

function pathTo(table: StepTable, last: number, from: Int32Array, shares: Float32Array, total: number): Laid {
  const { size, grid, lengths } = table;
  const kinds = lengths.length;
  const columnOf = new Int32Array(table.rows);
  const kindOf = new Uint8Array(table.rows);
  table.rowOf.forEach((row, at) => {
    if (row < 0) return;
    columnOf[row] = Math.floor(at / kinds);
    kindOf[row] = at % kinds;
  });
  const states: number[] = [];
  for (let at = last; at >= 0; at = from[at]!) states.push(at);
  states.reverse();
  const opening = Math.floor(states[0]! / size);
  const beats = Float64Array.from([
    grid.times[columnOf[opening]! - lengths[kindOf[opening]!]!]!,
    ...states.map((state) => grid.times[columnOf[Math.floor(state / size)]!]!),
  ]);
  const sure = new Float64Array(table.evidence.strokes.count);
  let column = columnOf[opening]! - lengths[kindOf[opening]!]!;
  for (const state of states) {
    const row = Math.floor(state / size);
    const p = ((state % size) + size - 1) % size;
    for (let s = table.strokeAt[column]!; s < table.strokeAt[columnOf[row]!]!; s++)
      sure[s] = shares[s * size + p]!;
    column = columnOf[row]!;
  }
  return { evidence: total, beats, firstBeat: ((states[0]! % size) + size - 1) % size, sure, shares };
}
