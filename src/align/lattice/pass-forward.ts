import type { StepTable } from "./step-table.ts";

/** Nats below the best row of the last beat at which rows are no longer followed. */
const BEAM = 12;
/** Share of a row's sources below which one is left out. */
const NEGLIGIBLE = 1e-4;

/**
 * Sums over all readings up to each step.
 *
 * @returns rows in which all strokes have been placed
 */
export function passForward(table: StepTable): number[] {
  const { columns, lengths, grid, evidence } = table;
  const kinds = lengths.length;
  const recent = new Float64Array(columns).fill(Number.NEGATIVE_INFINITY);
  const reach = lengths[kinds - 1]!;
  const ends: number[] = [];
  const mix = new Float32Array(table.size);
  for (let c = 0; c < columns; c++) {
    if (table.strokeAt[c]! >= evidence.strokes.count) {
      for (let k = 0; k < kinds; k++) {
        const row = table.rowOf[c * kinds + k]!;
        if (row >= 0) ends.push(row);
      }
      continue;
    }
    let floor = Number.NEGATIVE_INFINITY;
    for (let b = Math.max(0, c - reach); b <= c; b++) floor = Math.max(floor, recent[b]!);
    const opening = c <= grid.firstUntil && table.strokeAt[c] === 0;
    for (let k = 0; k < kinds; k++) {
      const target = c + lengths[k]!;
      if (target >= columns || table.open[c * kinds + k] === 0) continue;
      if (opening && table.strokeAt[target] === 0) continue;
      const top = joinRows(table, c, k, opening, mix);
      if (top < floor - BEAM) continue;
      const scale = takeStep(table, c, k, top, mix);
      recent[target] = Math.max(recent[target]!, scale);
    }
  }
  return ends;
}

/** Gathers into `mix` all readings that take the k-th length from a column; returns their log scale. */
function joinRows(table: StepTable, c: number, k: number, opening: boolean, mix: Float32Array): number {
  const { size, drift, rowOf, scale, pool, start } = table;
  const kinds = table.lengths.length;
  let top = opening ? 0 : Number.NEGATIVE_INFINITY;
  for (let b = 0; b < kinds; b++) {
    const row = rowOf[c * kinds + b]!;
    if (row >= 0) top = Math.max(top, scale[row]! + Math.log(drift[b * kinds + k]!));
  }
  if (top === Number.NEGATIVE_INFINITY) return top;
  if (opening) {
    const factor = Math.exp(-top);
    for (let p = 0; p < size; p++) {
      mix[p] = factor * Math.exp(start.begin[p]! + (start.known === null ? 0 : start.known(c, p)));
    }
  } else mix.fill(0);
  for (let b = 0; b < kinds; b++) {
    const row = rowOf[c * kinds + b]!;
    if (row < 0) continue;
    const factor = drift[b * kinds + k]! * Math.exp(scale[row]! - top);
    if (factor < NEGLIGIBLE) continue;
    const from = row * size;
    for (let p = 0; p < size; p++) mix[p]! += factor * pool[from + p]!;
  }
  return top;
}

/** Takes the readings in `mix` over a beat into a new row; returns its log scale, -Infinity where none is left. */
function takeStep(table: StepTable, c: number, k: number, top: number, mix: Float32Array): number {
  const { size, lead } = table;
  const log = table.emission(c, k);
  const row = table.newRow(c, k);
  const { pool, step } = table;
  const to = row * size;
  let largest = 0;
  pool[to] = 0;
  for (let p = 0; p + 1 < size; p++) {
    const value = mix[p]! * step[p]!;
    pool[to + p + 1] = value;
    if (value > largest) largest = value;
  }
  // The form's last beat leads to its first, as the lead's does.
  const again = mix[size - 1]! * step[size - 1]!;
  pool[to + lead]! += again;
  table.again[row] = again > 0 ? again / pool[to + lead]! : 0;
  largest = Math.max(largest, again);
  if (!(largest > 0)) {
    table.dropRow();
    return Number.NEGATIVE_INFINITY;
  }
  const inverse = 1 / largest;
  for (let p = 0; p < size; p++) pool[to + p]! *= inverse;
  table.scale[row] = top + log + Math.log(largest);
  return table.scale[row]!;
}
