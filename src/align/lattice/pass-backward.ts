import type { StepTable } from "./step-table.ts";

/** What the sum over all readings, forwards and backwards, says of the take and of each stroke. */
export interface Masses {
  /** Log evidence of the take. */
  readonly total: number;
  /** Share of all readings that have a stroke in each state: `shares[stroke * states + p]`. */
  readonly shares: Float32Array;
}

const NONE = Number.NEGATIVE_INFINITY;

/**
 * Sums over all readings from each step on; null where none reaches the end. The table's pool then holds the share of
 * all readings that take a row's step in each state.
 */
export function passBackward(table: StepTable, ends: readonly number[]): Masses | null {
  return new Backward(table, ends).pass();
}

/** Log evidence of a take by the rows in which all its strokes are placed; null where nothing is left. */
export function evidenceOfEnds(
  { size, pool, scale, start }: StepTable,
  ends: readonly number[],
): number | null {
  const end = start.end.map(Math.exp);
  const top = ends.reduce((most, row) => Math.max(most, scale[row]!), NONE);
  let sum = 0;
  for (const row of ends) {
    const factor = Math.exp(scale[row]! - top);
    for (let p = 0; p < size; p++) sum += factor * pool[row * size + p]! * end[p]!;
  }
  return sum > 0 ? top + Math.log(sum) : null;
}

class Backward {
  readonly table: StepTable;
  readonly ends: readonly number[];
  /** What follows each row, for as many rows as are needed at a time. */
  readonly back: Float32Array;
  readonly backScale: Float64Array;
  readonly shares: Float32Array;
  readonly steps: readonly Float32Array[];
  readonly stepScale: Float64Array;
  readonly ended: Uint8Array;

  constructor(table: StepTable, ends: readonly number[]) {
    const { rows, size, lengths, evidence, window } = table;
    this.table = table;
    this.ends = ends;
    this.back = new Float32Array(window * size);
    this.backScale = new Float64Array(rows).fill(NONE);
    this.shares = new Float32Array(evidence.strokes.count * size);
    this.steps = lengths.map(() => new Float32Array(size));
    this.stepScale = new Float64Array(lengths.length);
    this.ended = new Uint8Array(rows);
  }

  pass(): Masses | null {
    const { table, stepScale } = this;
    const total = this.begin();
    if (total === null) return null;
    for (let c = table.columns - 1; c >= 0; c--) {
      let any = false;
      for (let k = 0; k < stepScale.length; k++) {
        stepScale[k] = NONE;
        const target = c + table.lengths[k]!;
        if (target >= table.columns) continue;
        const row = table.rowOf[target * stepScale.length + k]!;
        if (row < 0) continue;
        if (this.backScale[row] === NONE) {
          table.pool.fill(0, row * table.size, (row + 1) * table.size);
          continue;
        }
        this.weigh(c, target, row, total);
        if (this.stepBack(c, k, row)) any = true;
      }
      if (any) this.join(c);
    }
    return { total, shares: this.shares };
  }

  /** Weighs the ends; returns the log evidence of the take. */
  private begin(): number | null {
    const { table, ends, back } = this;
    const { size, window, start } = table;
    for (const row of ends) {
      const at = (row % window) * size;
      for (let p = 0; p < size; p++) back[at + p] = Math.exp(start.end[p]!);
      this.backScale[row] = 0;
      this.ended[row] = 1;
    }
    return evidenceOfEnds(table, ends);
  }

  /** Turns a row into the share of all readings that take its step: a row belongs to one column's step alone. */
  private weigh(column: number, target: number, row: number, total: number): void {
    const { table, shares, back } = this;
    const { size, pool, strokeAt, lead } = table;
    const weight = Math.exp(table.scale[row]! + this.backScale[row]! - total);
    const at = row * size;
    const behind = (row % table.window) * size;
    const first = weight * pool[at + lead]! * back[behind + lead]!;
    let mass = 0;
    for (let p = 0; p + 1 < size; p++) {
      const value = weight * pool[at + p + 1]! * back[behind + p + 1]!;
      pool[at + p] = value;
      mass += value;
    }
    pool[at + lead - 1] = first * (1 - table.again[row]!);
    pool[at + size - 1] = first * table.again[row]!;
    if (mass < 1e-9) return;
    for (let s = strokeAt[column]!; s < strokeAt[target]!; s++) {
      for (let p = 0; p < size; p++) shares[s * size + p]! += pool[at + p]!;
    }
  }

  /** Takes what follows a step back over its strokes; false where nothing is left. */
  private stepBack(column: number, k: number, row: number): boolean {
    const { table, back } = this;
    const { size, step, lead } = table;
    const log = table.emission(column, k);
    const into = this.steps[k]!;
    const behind = (row % table.window) * size;
    let largest = 0;
    for (let p = 0; p < size; p++) {
      const value = step[p]! * back[behind + (p + 1 === size ? lead : p + 1)]!;
      into[p] = value;
      if (value > largest) largest = value;
    }
    if (!(largest > 0)) return false;
    for (let p = 0; p < size; p++) into[p]! /= largest;
    this.stepScale[k] = log + this.backScale[row]! + Math.log(largest);
    return true;
  }

  /** Joins the steps that leave a column into the rows that reach it. */
  private join(column: number): void {
    const { table, back, backScale, stepScale } = this;
    const { size, drift, rowOf } = table;
    const kinds = stepScale.length;
    for (let b = 0; b < kinds; b++) {
      const row = rowOf[column * kinds + b]!;
      if (row < 0 || this.ended[row] === 1) continue;
      let high = NONE;
      for (let k = 0; k < kinds; k++) high = Math.max(high, stepScale[k]! + Math.log(drift[b * kinds + k]!));
      if (high === NONE) continue;
      const at = (row % table.window) * size;
      back.fill(0, at, at + size);
      for (let k = 0; k < kinds; k++) {
        const factor = drift[b * kinds + k]! * Math.exp(stepScale[k]! - high);
        if (!(factor > 1e-7)) continue;
        const into = this.steps[k]!;
        for (let p = 0; p < size; p++) back[at + p]! += factor * into[p]!;
      }
      let largest = 0;
      for (let p = 0; p < size; p++) largest = Math.max(largest, back[at + p]!);
      if (!(largest > 0)) continue;
      for (let p = 0; p < size; p++) back[at + p]! /= largest;
      backScale[row] = high + Math.log(largest);
    }
  }
}
