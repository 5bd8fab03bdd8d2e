import type { StepTable } from "./step-table.ts";

/** Nats below the best row of the last beat at which rows are no longer followed. */
const BEAM = 12;

/**
 * Sums over all readings up to each step.
 *
 * @returns rows in which all strokes have been placed
 */
export function passForward(table: StepTable): number[] {
  const { size, columns, lengths, grid, evidence } = table;
  const kinds = lengths.length;
  const begin = table.start.begin.map(Math.exp);
  const recent = new Float64Array(columns).fill(Number.NEGATIVE_INFINITY);
  const reach = lengths[kinds - 1]!;
  const count = evidence.strokes.count;
  const ends: number[] = [];
  const mix = new Float32Array(size);
  for (let c = 0; c < columns; c++) {
    if (table.strokeAt[c]! >= count) {
      for (let k = 0; k < kinds; k++) {
        const row = table.rowOf[c * kinds + k]!;
        if (row >= 0) ends.push(row);
      }
      continue;
    }
    let floor = Number.NEGATIVE_INFINITY;
    for (let b = Math.max(0, c - reach); b <= c; b++) floor = Math.max(floor, recent[b]!);
    floor -= BEAM;
    const opening = c <= grid.firstUntil && table.strokeAt[c] === 0;
    for (let k = 0; k < kinds; k++) {
      const target = c + lengths[k]!;
      if (target >= columns || table.open[c * kinds + k] === 0) continue;
      let top = opening ? 0 : Number.NEGATIVE_INFINITY;
      for (let b = 0; b < kinds; b++) {
        const row = table.rowOf[c * kinds + b]!;
        if (row >= 0 && table.drift[b * kinds + k]! > 0) top = Math.max(top, table.scale[row]!);
      }
      if (opening && table.strokeAt[target] === 0) continue;
      if (top < floor) continue;
      if (opening) {
        mix.set(begin);
        if (table.start.known !== null)
          for (let p = 0; p < size; p++) mix[p]! *= Math.exp(table.start.known(c, p));
      } else mix.fill(0);
      if (opening && top > 0) {
        const factor = Math.exp(-top);
        for (let p = 0; p < size; p++) mix[p]! *= factor;
      }
      for (let b = 0; b < kinds; b++) {
        const row = table.rowOf[c * kinds + b]!;
        if (row < 0) continue;
        const factor = table.drift[b * kinds + k]! * Math.exp(table.scale[row]! - top);
        if (factor < 1e-7) continue;
        const from = row * size;
        const { pool } = table;
        for (let p = 0; p < size; p++) mix[p]! += factor * pool[from + p]!;
      }
      const log = table.emission(c, k);
      const row = table.newRow(target, k);
      const to = row * size;
      const { pool, step } = table;
      let largest = 0;
      for (let p = 0; p < size; p++) {
        const value = mix[p]! * step[p]!;
        pool[to + (p + 1 === size ? 0 : p + 1)] = value;
        if (value > largest) largest = value;
      }
      if (!(largest > 0)) {
        table.rows--;
        table.rowOf[target * kinds + k] = -1;
        continue;
      }
      const inverse = 1 / largest;
      for (let p = 0; p < size; p++) pool[to + p]! *= inverse;
      table.scale[row] = top + log + Math.log(largest);
      recent[target] = Math.max(recent[target]!, table.scale[row]!);
    }
  }
  return ends;
}
