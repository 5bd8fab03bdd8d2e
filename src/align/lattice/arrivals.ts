import type { StepTable } from "./step-table.ts";
import { type Waited, Waiting } from "./waiting.ts";

/** Lengths of a beat that a lattice may try. */
export const LANES = 3;

/** What a lattice holds between two columns, so that it can be summed again from there. */
export interface Arrived {
  readonly rows: readonly Float64Array[];
  readonly filledFor: Int32Array;
  readonly rowFrom: Int32Array;
  readonly rowTo: Int32Array;
  readonly waited: Waited;
}

/**
 * What has reached the next few columns, state by state, while a lattice is summed forwards. Few states are empty while a
 * chart alone is followed, so that rows are worked through from the first state that is not to the last; columns further
 * on take the place of those behind.
 */
export class Arrivals {
  private readonly table: StepTable;
  /** Columns that are kept, and the rows of each: by the length of the step that led there, then by the state it left. */
  private readonly turn: number;
  private readonly rows: readonly Float64Array[];
  private readonly filledFor: Int32Array;
  /** States of a row outside of which it is empty: from one to before another. */
  private readonly rowFrom: Int32Array;
  private readonly rowTo: Int32Array;
  private readonly none: Float64Array;
  /** What leaves the column that was gathered last, by the length of its next step. */
  readonly mix: readonly [Float64Array, Float64Array, Float64Array];
  /** States outside of which nothing leaves it, and outside of which nothing reached it or begins there. */
  from = 0;
  to = 0;
  private arrivedFrom = 0;
  private arrivedTo = 0;
  /** Log share of each length after another, none for lengths that are not tried. */
  private readonly drift: Float64Array;
  private readonly waits: Waiting;

  /** @throws RangeError for a grid of more lengths than are worked through at a time */
  constructor(table: StepTable) {
    const { size, lengths, room } = table;
    this.table = table;
    this.turn = lengths.at(-1)! + 1;
    const many = this.turn * LANES;
    this.rows = Array.from({ length: many }, (_, i) => room.clear(`row ${i}`, Float64Array, size));
    this.filledFor = new Int32Array(many).fill(-1);
    this.rowFrom = new Int32Array(many);
    this.rowTo = new Int32Array(many);
    this.none = room.clear("none", Float64Array, size);
    const mix = (k: number) => room.take(`mix ${k}`, Float64Array, size);
    this.mix = [mix(0), mix(1), mix(2)];
    this.waits = new Waiting(table);
    this.drift = inLanes(table);
  }

  /** True where something waits that may go on. */
  get waiting(): boolean {
    return this.waits.many > 0;
  }

  /**
   * A row for what reaches a column by the k-th length, by the state that was left: empty but for the states that leave
   * the column gathered last, which are to be filled in and told by `close`.
   */
  open(column: number, k: number): Float64Array {
    const at = (column % this.turn) * LANES + k;
    const row = this.rows[at]!;
    const { from, to } = this;
    const [was, until] = [this.rowFrom[at]!, this.rowTo[at]!];
    if (was < from) row.fill(0, was, Math.min(until, from));
    if (until > to) row.fill(0, Math.max(was, to), until);
    this.filledFor[at] = column;
    this.rowFrom[at] = from;
    this.rowTo[at] = to;
    return row;
  }

  /** Says outside of which states a row that was opened is empty after all. */
  close(column: number, k: number, from: number, to: number): void {
    const at = (column % this.turn) * LANES + k;
    this.rowFrom[at] = from;
    this.rowTo[at] = to;
  }

  private row(column: number, b: number): Float64Array {
    const at = (column % this.turn) * LANES + b;
    return this.filledFor[at] === column ? this.rows[at]! : this.none;
  }

  /**
   * Gathers into `mix` all readings that leave a column, against `exp(base)`.
   *
   * @param opening whether the first beat may begin here
   */
  gather(c: number, opening: boolean, base: number): void {
    const { size, lead } = this.table;
    this.reach(c, opening);
    const { waits } = this;
    const waiting = waits.many > 0;
    const nothing = this.arrivedFrom === this.arrivedTo;
    this.from = waiting && (nothing || waits.from < this.arrivedFrom) ? waits.from : this.arrivedFrom;
    this.to = waiting ? Math.max(waits.to, this.arrivedTo) : this.arrivedTo;
    const [formLast, leadLast] = [size - 1, lead - 1];
    if (opening) this.gatherOpening(c, base);
    else this.gatherRows(c);
    if (this.from <= lead && lead < this.to) {
      // The form's first beat comes after its last, and after that of the lead.
      for (let k = 0; k < LANES; k++) {
        let sum = opening ? this.begun(c, lead, base) : 0;
        for (let b = 0; b < LANES; b++) {
          const [row, share] = [this.row(c, b), this.drift[b * LANES + k]!];
          sum += share * row[leadLast]!;
          sum += share * row[formLast]!;
        }
        this.mix[k]![lead] = sum;
      }
    }
    if (waiting) this.gatherHeld(c, base);
  }

  /** Finds outside of which states nothing reached a column or begins there. */
  private reach(c: number, opening: boolean): void {
    const { size, lead } = this.table;
    if (opening) {
      this.arrivedFrom = 0;
      this.arrivedTo = size;
      return;
    }
    let [from, to] = [size, 0];
    for (let b = 0; b < LANES; b++) {
      const at = (c % this.turn) * LANES + b;
      if (this.filledFor[at] !== c || this.rowFrom[at]! >= this.rowTo[at]!) continue;
      from = Math.min(from, this.rowFrom[at]! + 1);
      to = Math.max(to, this.rowTo[at]! + 1);
    }
    if (to > size) [from, to] = [Math.min(from, lead), size];
    this.arrivedFrom = Math.min(from, to);
    this.arrivedTo = to;
  }

  /** What reached a column by the k-th length, by the state that was left; null where that step was not taken. */
  reached(column: number, k: number): Float64Array | null {
    const at = (column % this.turn) * LANES + k;
    return this.filledFor[at] === column && this.rowFrom[at]! < this.rowTo[at]! ? this.rows[at]! : null;
  }

  /** Share of readings that begin in a state here. */
  private begun(c: number, p: number, base: number): number {
    const { start } = this.table;
    const log = start.begin[p]! + (start.known === null ? 0 : start.known(c, p)) - base;
    return log <= -60 ? 0 : Math.exp(log);
  }

  /** What begins here, and then what reached the column. */
  private gatherOpening(c: number, base: number): void {
    const { mix, drift } = this;
    const { size } = this.table;
    for (let p = 0; p < size; p++) {
      const begun = this.begun(c, p, base);
      for (let k = 0; k < LANES; k++) mix[k]![p] = begun;
    }
    for (let b = 0; b < LANES; b++) {
      const row = this.row(c, b);
      for (let p = 0; p + 1 < size; p++) {
        for (let k = 0; k < LANES; k++) mix[k]![p + 1]! += drift[b * LANES + k]! * row[p]!;
      }
    }
  }

  /** Gathers what reached a column in each state, from which it goes on to the next. */
  private gatherRows(c: number): void {
    const { mix, drift, to } = this;
    const [m0, m1, m2] = mix;
    const [r0, r1, r2] = [this.row(c, 0), this.row(c, 1), this.row(c, 2)];
    const [a0, a1, a2] = [drift[0]!, drift[1]!, drift[2]!];
    const [b0, b1, b2] = [drift[3]!, drift[4]!, drift[5]!];
    const [c0, c1, c2] = [drift[6]!, drift[7]!, drift[8]!];
    let q = this.from;
    if (q === 0) {
      m0[0] = 0;
      m1[0] = 0;
      m2[0] = 0;
      q = 1;
    }
    for (; q < to; q++) {
      const x = r0[q - 1]!;
      const y = r1[q - 1]!;
      const z = r2[q - 1]!;
      m0[q] = a0 * x + b0 * y + c0 * z;
      m1[q] = a1 * x + b1 * y + c1 * z;
      m2[q] = a2 * x + b2 * y + c2 * z;
    }
  }

  private gatherHeld(c: number, base: number): void {
    const { table, waits } = this;
    const kinds = table.lengths.length;
    table.waited[c] = waits.columns;
    for (let k = 0; k < kinds; k++) {
      const usual = (table.start.pauses / waits.columns) * this.drift[(kinds >> 1) * LANES + k]!;
      waits.goOn(usual * Math.exp(waits.offset - base), this.mix[k]!);
    }
  }

  /** Log of what a gathered column is weighed against. */
  baseOf(c: number, opening: boolean): number {
    const offset = this.table.offset[c]!;
    return Number.isNaN(offset) ? (opening ? 0 : this.waits.offset) : offset;
  }

  /** Keeps what reached the column that was gathered last, so that it may go on later in the same gap. */
  hold(c: number): void {
    const { waits, arrivedFrom, arrivedTo } = this;
    const { offset, size, lead } = this.table;
    if (waits.columns === 0) waits.offset = offset[c]!;
    const factor = Math.exp(offset[c]! - waits.offset);
    waits.columns++;
    if (arrivedFrom >= arrivedTo) return;
    const rows = [this.row(c, 0), this.row(c, 1), this.row(c, 2)] as const;
    waits.hold(factor, rows, Math.max(1, arrivedFrom), Math.min(lead, arrivedTo));
    waits.hold(factor, rows, Math.max(lead + 1, arrivedFrom), arrivedTo);
    if (arrivedFrom <= lead && lead < arrivedTo) waits.holdOne(factor, rows, lead, lead - 1, size - 1);
    waits.widen(arrivedFrom, arrivedTo);
  }

  forget(): void {
    this.waits.forget();
  }

  /** States of the column that was gathered last in the order in which they came up: sums are taken in it. */
  order(c: number, opening: boolean, base: number): Int32Array {
    const { size, lead } = this.table;
    const seen = new Uint8Array(size);
    const order: number[] = [];
    const touch = (q: number) => {
      if (seen[q] === 0) order.push(q);
      seen[q] = 1;
    };
    const rows = [this.row(c, 0), this.row(c, 1), this.row(c, 2)];
    if (opening) for (let p = 0; p < size; p++) if (this.begun(c, p, base) > 0) touch(p);
    for (const some of opening ? rows.map((row) => [row]) : [rows]) {
      for (let q = 1; q < size; q++) if (q !== lead && some.some((row) => row[q - 1]! > 0)) touch(q);
    }
    if (rows.some((row) => row[lead - 1]! > 0 || row[size - 1]! > 0)) touch(lead);
    for (let i = 0; i < this.waits.many; i++) touch(this.waits.states[i]!);
    return Int32Array.from(order);
  }

  /** What is to be remembered of this moment, for `restore`. */
  save(): Arrived {
    const { size } = this.table;
    return {
      rows: this.rows.map((row) => row.slice(0, size)),
      filledFor: this.filledFor.slice(),
      rowFrom: this.rowFrom.slice(),
      rowTo: this.rowTo.slice(),
      waited: this.waits.save(),
    };
  }

  restore(saved: Arrived): void {
    saved.rows.forEach((row, i) => {
      this.rows[i]!.set(row);
    });
    this.filledFor.set(saved.filledFor);
    this.rowFrom.set(saved.rowFrom);
    this.rowTo.set(saved.rowTo);
    this.waits.restore(saved.waited);
  }
}

/**
 * Shares of lengths after each other for as many as may be tried: `drift[before * LANES + after]`.
 *
 * @throws RangeError for more
 */
export function inLanes({ drift, lengths }: StepTable): Float64Array {
  const kinds = lengths.length;
  if (kinds > LANES) throw new RangeError(`${kinds} lengths of a beat: at most ${LANES} can be tried`);
  const wide = new Float64Array(LANES * LANES);
  for (let b = 0; b < kinds; b++) {
    for (let k = 0; k < kinds; k++) wide[b * LANES + k] = drift[b * kinds + k]!;
  }
  return wide;
}
