import type { StepTable } from "./step-table.ts";

/** What the sum over all readings, forwards and backwards, says of the take and of each stroke. */
export interface Masses {
  /** Log evidence of the take. */
  readonly total: number;
  /** Share of all readings that take an entry's step in its state: stands where its `value` stood. */
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
    for (let e = table.entryOf[row]!; e < to; e++) each(e, table.next[table.state[e]!]!, b);
  }
}

class Backward {
  private readonly table: StepTable;
  private readonly total: number;
  private readonly ended: ReadonlySet<number>;
  /** What follows an entry, against `exp(offset)` of the column that it reaches; asked for within a step, at `e & turn`. */
  private readonly after: Float64Array;
  private readonly turn: number;
  private readonly offset: Float64Array;
  private readonly shares: Float32Array;
  /** What follows a beat that begins at a column, by its length and state; the states of which it is not zero. */
  private readonly into: readonly Float64Array[];
  private readonly touched: Int32Array;
  private many = 0;
  /** The column at which each state was touched last. */
  private readonly seen: Int32Array;
  /** What follows waiting until later columns of the gap, against `exp(heldOffset)`. */
  private readonly held: Float64Array;
  private readonly heldStates: Int32Array;
  private heldMany = 0;
  private heldOffset = 0;

  constructor(table: StepTable, ends: readonly number[], total: number) {
    this.table = table;
    this.total = total;
    this.ended = new Set(ends);
    const turn = table.turn();
    this.after = table.room.clear("after", Float64Array, turn);
    this.turn = turn - 1;
    this.offset = new Float64Array(table.columns).fill(Number.NaN);
    this.shares = table.room.clear("shares", Float32Array, table.evidence.strokes.count * table.size);
    const { room, size } = table;
    this.into = table.lengths.map((_, k) => room.clear(`into ${k}`, Float64Array, size));
    this.touched = room.take("touched", Int32Array, size);
    this.seen = room.take("seen", Int32Array, size).fill(-1);
    this.held = room.clear("held", Float64Array, size);
    this.heldStates = room.take("heldStates", Int32Array, size);
  }

  pass(): Masses {
    const { table, after, turn } = this;
    for (let c = table.columns - 1; c >= 0; c--) {
      if (this.ended.has(c)) {
        this.offset[c] = 0;
        eachReaching(table, c, (e, q) => {
          after[e & turn] = Math.exp(table.start.end[q]!);
        });
        continue;
      }
      if (c + 1 < table.columns && table.strokeAt[c] !== table.strokeAt[c + 1]) this.forget();
      for (let k = 0; k < table.lengths.length; k++) this.leave(c, k);
      if (!Number.isNaN(table.offset[c]!)) this.reach(c);
      if (table.waited[c]! > 0) this.hold(c);
      for (const row of this.into) for (let i = 0; i < this.many; i++) row[this.touched[i]!] = 0;
      this.many = 0;
    }
    return { total: this.total, ofEntry: table.value, shares: this.shares };
  }

  /** What follows the beats of the k-th length that leave a column, and the shares of all readings that take them. */
  private leave(c: number, k: number): void {
    const { table, after, turn, offset, shares, touched, seen } = this;
    const { lengths, strokeAt, state, factor, value, size } = table;
    const target = c + lengths[k]!;
    const row = target < table.columns ? table.rowOf[target * lengths.length + k]! : -1;
    if (row < 0) return;
    if (Number.isNaN(offset[target]!)) {
      value.fill(0, table.entryOf[row]!, table.entryOf[row + 1]!);
      return;
    }
    const log = offset[target]! + table.rhythm[c * lengths.length + k]!;
    const whole = Math.exp(table.offset[target]! + offset[target]! - this.total);
    if (Number.isNaN(offset[c]!)) offset[c] = log;
    const scale = Math.exp(log - offset[c]!);
    const into = this.into[k]!;
    const [first, last] = [strokeAt[c]!, strokeAt[target]!];
    const to = table.entryOf[row + 1]!;
    let many = this.many;
    for (let e = table.entryOf[row]!; e < to; e++) {
      const p = state[e]!;
      const behind = after[e & turn]!;
      const follows = scale * factor[e]! * behind;
      if (follows === 0) {
        value[e] = 0;
        continue;
      }
      into[p] = follows;
      if (seen[p] !== c) {
        seen[p] = c;
        touched[many++] = p;
      }
      const share = whole * value[e]! * behind;
      value[e] = share;
      if (share < 1e-9) continue;
      for (let s = first; s < last; s++) shares[s * size + p]! += share;
    }
    this.many = many;
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
    const { table, after, turn, offset, held } = this;
    const waits = this.heldMany > 0;
    if (Number.isNaN(offset[c]!)) {
      if (!waits) return;
      offset[c] = this.heldOffset;
    }
    const late = waits ? Math.exp(this.heldOffset - offset[c]!) : 0;
    const { lengths, rowOf, entryOf, state, next } = table;
    const kinds = lengths.length;
    for (let b = 0; b < kinds; b++) {
      const row = rowOf[c * kinds + b]!;
      if (row < 0) continue;
      const to = entryOf[row + 1]!;
      for (let e = entryOf[row]!; e < to; e++) {
        const q = next[state[e]!]!;
        after[e & turn] = this.follows(q, b) + late * held[q]!;
      }
    }
  }

  /** Keeps what follows a column for those of the gap before it, from which it may be reached by waiting. */
  private hold(c: number): void {
    const { table, offset, held, heldStates, touched } = this;
    if (Number.isNaN(offset[c]!)) return;
    if (this.heldMany === 0) this.heldOffset = offset[c]!;
    const factor = (table.start.pauses / table.waited[c]!) * Math.exp(offset[c]! - this.heldOffset);
    const middle = table.lengths.length >> 1;
    for (let i = 0; i < this.many; i++) {
      const q = touched[i]!;
      const value = factor * this.follows(q, middle);
      if (value === 0) continue;
      if (held[q] === 0) heldStates[this.heldMany++] = q;
      held[q]! += value;
    }
  }

  private forget(): void {
    for (let i = 0; i < this.heldMany; i++) this.held[this.heldStates[i]!] = 0;
    this.heldMany = 0;
  }
}
