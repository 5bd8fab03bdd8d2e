import type { Laid } from "./lattice-types.ts";
import type { Masses } from "./pass-backward.ts";
import type { StepTable } from "./step-table.ts";

/** How a state was reached: by which length the step before ended; the first step has none before. */
const OPENING = 255;

/**
 * The path whose strokes lie where most readings have them: each step earns the shares of its strokes in its state,
 * and what readings agree on its moment and length (which the table's pool holds by now).
 */
export function bestPath(table: StepTable, ends: readonly number[], masses: Masses): Laid | null {
  const { size, lead, columns, lengths, window, pool } = table;
  const kinds = lengths.length;
  const best = new Float32Array(window * size);
  const came = new Uint8Array(table.rows * size);
  for (let c = 0; c < columns; c++) {
    const opening = c <= table.grid.firstUntil && table.strokeAt[c] === 0;
    for (let k = 0; k < kinds; k++) {
      const target = c + lengths[k]!;
      const row = target < columns ? table.rowOf[target * kinds + k]! : -1;
      if (row < 0) continue;
      const [first, last] = [table.strokeAt[c]!, table.strokeAt[target]!];
      const to = (row % window) * size;
      best.fill(-1, to, to + size);
      for (let p = 0; p < size; p++) {
        const mass = pool[row * size + p]!;
        if (mass < 1e-6) continue;
        let before = opening ? 0 : -1;
        let how = OPENING;
        for (let b = 0; b < kinds; b++) {
          const source = table.rowOf[c * kinds + b]!;
          if (source < 0 || table.drift[b * kinds + k]! < 1e-7) continue;
          const at = (source % window) * size;
          if (best[at + p]! <= before) continue;
          before = best[at + p]!;
          how = b;
        }
        if (before < 0) continue;
        let earned = before + 2 * mass;
        for (let s = first; s < last; s++) earned += masses.shares[s * size + p]!;
        const q = p + 1 === size ? lead : p + 1;
        if (earned <= best[to + q]!) continue;
        best[to + q] = earned;
        came[row * size + p] = how;
        if (q === lead) table.again[row] = p === lead - 1 ? 0 : 1;
      }
    }
  }
  let [endRow, endState, most] = [-1, 0, -1];
  for (const row of ends) {
    for (let q = 0; q < size; q++) {
      if (best[(row % window) * size + q]! <= most) continue;
      most = best[(row % window) * size + q]!;
      [endRow, endState] = [row, q];
    }
  }
  return endRow < 0 ? null : pathTo(table, endRow, endState, came, masses);
}

/** Follows the best path back from its end. */
function pathTo(table: StepTable, endRow: number, endState: number, came: Uint8Array, masses: Masses): Laid {
  const { size, lead, lengths, grid, strokeAt } = table;
  const kinds = lengths.length;
  const steps: { row: number; p: number }[] = [];
  let [row, q] = [endRow, endState];
  for (;;) {
    const p = q === lead ? (table.again[row] === 1 ? size - 1 : lead - 1) : q - 1;
    steps.push({ row, p });
    const how = came[row * size + p]!;
    if (how === OPENING) break;
    row = table.rowOf[table.columnOf[row]! * kinds + how]!;
    q = p;
  }
  steps.reverse();
  const beats = Float64Array.from([
    grid.times[table.columnOf[steps[0]!.row]!]!,
    ...steps.map((one) => grid.times[table.columnOf[one.row]! + lengths[table.kindOf[one.row]!]!]!),
  ]);
  const sure = new Float64Array(table.evidence.strokes.count);
  for (const one of steps) {
    const column = table.columnOf[one.row]!;
    const until = strokeAt[column + lengths[table.kindOf[one.row]!]!]!;
    for (let s = strokeAt[column]!; s < until; s++) sure[s] = masses.shares[s * size + one.p]!;
  }
  return {
    evidence: masses.total,
    beats,
    firstBeat: steps[0]!.p - lead,
    sure,
    shares: masses.shares,
  };
}
