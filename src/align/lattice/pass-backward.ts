import type { StepTable } from "./step-table.ts";

/** What the sum over all readings, forwards and backwards, says of the take and of each stroke. */
export interface Masses {
  /** Log evidence of the take. */
  readonly total: number;
  /** Share of all readings that take an entry's step in its state. */
  readonly ofEntry: Float64Array;
  /** Share of all readings that have a stroke in each state: `shares[stroke * states + p]`. */
  readonly shares: Float32Array;
}

/** Sums over all readings from each step on; null where none reaches the end. */
export function passBackward(table: StepTable, ends: readonly number[]): Masses | null {
  const total = evidenceOfEnds(table, ends);
  return total === null ? null : new Backward(table, ends, total).pass();
}

/** Log evidence of a take by the columns in which all its strokes are placed; null where nothing is left. */
export function evidenceOfEnds(table: StepTable, ends: readonly number[]): number | null {
  const { offset, start } = table;
  const top = ends.reduce((most, c) => Math.max(most, offset[c]!), Number.NEGATIVE_INFINITY);
  let sum = 0;
  for (const c of ends) {
    const factor = Math.exp(offset[c]! - top);
    eachReaching(table, c, (e, q) => {
      sum += factor * table.value[e]! * Math.exp(start.end[q]!);
    });
  }
  return sum > 0 ? top + Math.log(sum) : null;
}

/** Entries whose step ends at a column, with the state that they reach and the index of their length. */
export function eachReaching(
  table: StepTable,
  c: number,
  each: (entry: number, state: number, length: number) => void,
): void {
  const kinds = table.lengths.length;
  for (let b = 0; b < kinds; b++) {
    const row = table.rowOf[c * kinds + b]!;
    if (row < 0) continue;
    const to = table.entryOf[row + 1]!;
    for (let e = table.entryOf[row]!; e < to; e++) each(e, table.next(table.state[e]!), b);
  }
}

class Backward {
  private readonly table: StepTable;
  private readonly total: number;
  private readonly ended: ReadonlySet<number>;
  /** What follows an entry, against `exp(offset)` of the column that it reaches. */
  private readonly after: Float64Array;
  private readonly offset: Float64Array;
  private readonly shares: Float32Array;
  private readonly ofEntry: Float64Array;
  /** What follows a beat that begins at a column, by its length and state; the states of which it is not zero. */
  private readonly into: readonly Float64Array[];
  private readonly touched: number[] = [];
  /** What follows waiting until later columns of the gap, against `exp(heldOffset)`. */
  private readonly held: Float64Array;
  private readonly heldStates: number[] = [];
  private heldOffset = 0;

  constructor(table: StepTable, ends: readonly number[], total: number) {
    this.table = table;
    this.total = total;
    this.ended = new Set(ends);
    this.after = new Float64Array(table.entries);
    this.ofEntry = new Float64Array(table.entries);
    this.offset = new Float64Array(table.columns).fill(Number.NaN);
    this.shares = new Float32Array(table.evidence.strokes.count * table.size);
    this.into = table.lengths.map(() => new Float64Array(table.size));
    this.held = new Float64Array(table.size);
  }

  pass(): Masses {
    const { table, after } = this;
    for (let c = table.columns - 1; c >= 0; c--) {
      if (this.ended.has(c)) {
        this.offset[c] = 0;
        eachReaching(table, c, (e, q) => {
          after[e] = Math.exp(table.start.end[q]!);
        });
        continue;
      }
      if (c + 1 < table.columns && table.strokeAt[c] !== table.strokeAt[c + 1]) this.forget();
      for (let k = 0; k < table.lengths.length; k++) this.leave(c, k);
      if (!Number.isNaN(table.offset[c]!)) this.reach(c);
      if (table.waited[c]! > 0) this.hold(c);
      for (const p of this.touched) for (const row of this.into) row[p] = 0;
      this.touched.length = 0;
    }
    return { total: this.total, ofEntry: this.ofEntry, shares: this.shares };
  }

  /** What follows the beats of the k-th length that leave a column, and the shares of all readings that take them. */
  private leave(c: number, k: number): void {
    const { table, after, offset, ofEntry, shares } = this;
    const { lengths, strokeAt, state, factor, value, size } = table;
    const target = c + lengths[k]!;
    const row = target < table.columns ? table.rowOf[target * lengths.length + k]! : -1;
    if (row < 0 || Number.isNaN(offset[target]!)) return;
    const log = offset[target]! + table.rhythm[c * lengths.length + k]!;
    const whole = Math.exp(table.offset[target]! + offset[target]! - this.total);
    if (Number.isNaN(offset[c]!)) offset[c] = log;
    const scale = Math.exp(log - offset[c]!);
    const into = this.into[k]!;
    for (let e = table.entryOf[row]!; e < table.entryOf[row + 1]!; e++) {
      const p = state[e]!;
      const follows = scale * factor[e]! * after[e]!;
      if (follows === 0) continue;
      into[p] = follows;
      this.touched.push(p);
      const share = whole * value[e]! * after[e]!;
      ofEntry[e] = share;
      if (share < 1e-9) continue;
      for (let s = strokeAt[c]!; s < strokeAt[target]!; s++) shares[s * size + p]! += share;
    }
  }

  /** What follows a beat of some length before, where the next begins in a state, by its drift. */
  private follows(q: number, before: number): number {
    const { into } = this;
    const { drift } = this.table;
    let sum = 0;
    for (let k = 0; k < into.length; k++) sum += drift[before * into.length + k]! * into[k]![q]!;
    return sum;
  }

  private reach(c: number): void {
    const { table, after, offset, held } = this;
    const waits = this.heldStates.length > 0;
    if (Number.isNaN(offset[c]!)) {
      if (!waits) return;
      offset[c] = this.heldOffset;
    }
    const late = waits ? Math.exp(this.heldOffset - offset[c]!) : 0;
    const kinds = table.lengths.length;
    for (let b = 0; b < kinds; b++) {
      const row = table.rowOf[c * kinds + b]!;
      if (row < 0) continue;
      for (let e = table.entryOf[row]!; e < table.entryOf[row + 1]!; e++) {
        const q = table.next(table.state[e]!);
        after[e] = this.follows(q, b) + late * held[q]!;
      }
    }
  }

  /** Keeps what follows a column for those of the gap before it, from which it may be reached by waiting. */
  private hold(c: number): void {
    const { table, offset, held, heldStates, touched } = this;
    if (Number.isNaN(offset[c]!)) return;
    if (heldStates.length === 0) this.heldOffset = offset[c]!;
    const factor = (table.start.pauses / table.waited[c]!) * Math.exp(offset[c]! - this.heldOffset);
    const middle = table.lengths.length >> 1;
    for (const q of new Set(touched)) {
      const value = factor * this.follows(q, middle);
      if (value === 0) continue;
      if (held[q] === 0) heldStates.push(q);
      held[q]! += value;
    }
  }

  private forget(): void {
    for (const p of this.heldStates) this.held[p] = 0;
    this.heldStates.length = 0;
  }
}
