import type { StepTable } from "./step-table.ts";

/** Lengths of a beat that a lattice may try. */
const LANES = 3;

/**
 * What has reached the next few columns, state by state, while a lattice is summed forwards. Few states are empty while a
 * chart alone is followed, so that whole rows are worked through; columns further on take the place of those behind.
 */
export class Arrivals {
  private readonly table: StepTable;
  /** Columns that are kept, and the rows of each: by the length of the step that led there, then by the state it left. */
  private readonly turn: number;
  private readonly rows: readonly Float64Array[];
  private readonly filledFor: Int32Array;
  private readonly none: Float64Array;
  /** What leaves the column that was gathered last, by the length of its next step; states where that is something. */
  readonly mix: readonly [Float64Array, Float64Array, Float64Array];
  readonly touched: Int32Array;
  private many = 0;
  /** How many of them were reached or begin here, without what waits; and the column in which each was touched last. */
  private arrived = 0;
  private readonly seen: Int32Array;
  /** Log share of each length after another, none for lengths that are not tried. */
  private readonly drift = new Float64Array(LANES * LANES);
  /** What reached the columns of the gap between strokes so far: it may wait there. */
  private readonly held: Float64Array;
  private readonly heldStates: Int32Array;
  private heldMany = 0;
  private heldOffset = 0;
  private heldColumns = 0;

  /** @throws RangeError for a grid of more lengths than are worked through at a time */
  constructor(table: StepTable) {
    const { size, lengths, room } = table;
    const kinds = lengths.length;
    if (kinds > LANES) throw new RangeError(`${kinds} lengths of a beat: at most ${LANES} can be tried`);
    this.table = table;
    this.turn = lengths.at(-1)! + 1;
    this.rows = Array.from({ length: this.turn * LANES }, (_, i) =>
      room.take(`row ${i}`, Float64Array, size),
    );
    this.filledFor = new Int32Array(this.turn * LANES).fill(-1);
    this.none = room.clear("none", Float64Array, size);
    const mix = (k: number) => room.take(`mix ${k}`, Float64Array, size);
    this.mix = [mix(0), mix(1), mix(2)];
    this.seen = room.take("seen", Int32Array, size).fill(-1);
    this.touched = room.take("touched", Int32Array, size);
    this.held = room.clear("held", Float64Array, size);
    this.heldStates = room.take("heldStates", Int32Array, size);
    for (let b = 0; b < kinds; b++) {
      for (let k = 0; k < kinds; k++) this.drift[b * LANES + k] = table.drift[b * kinds + k]!;
    }
  }

  /** True where something waits that may go on. */
  get waiting(): boolean {
    return this.heldMany > 0;
  }

  /** An empty row for what reaches a column by the k-th length, by the state that was left. */
  open(column: number, k: number): Float64Array {
    const at = (column % this.turn) * LANES + k;
    this.filledFor[at] = column;
    const row = this.rows[at]!;
    row.fill(0, 0, this.table.size);
    return row;
  }

  private row(column: number, b: number): Float64Array {
    const at = (column % this.turn) * LANES + b;
    return this.filledFor[at] === column ? this.rows[at]! : this.none;
  }

  /**
   * Gathers into `mix` all readings that leave a column, against `exp(base)`, and into `touched` their states.
   *
   * @param opening whether the first beat may begin here
   * @returns how many states there are
   */
  gather(c: number, opening: boolean, base: number): number {
    const { size, lead } = this.table;
    this.many = 0;
    if (opening) this.gatherOpening(c, base);
    else {
      this.gatherRows(c, 0, lead - 1);
      this.gatherRows(c, lead, size - 1);
    }
    this.gatherForm(c, opening);
    this.arrived = this.many;
    if (this.heldMany > 0) this.gatherHeld(c, base);
    return this.many;
  }

  /** Numbers a state among those that are touched, with nothing in it yet. */
  private touch(c: number, q: number): void {
    if (this.seen[q] === c) return;
    this.seen[q] = c;
    this.touched[this.many++] = q;
    for (let k = 0; k < LANES; k++) this.mix[k]![q] = 0;
  }

  /** What begins here, and then what reached the column, all but what goes on to the form's first beat. */
  private gatherOpening(c: number, base: number): void {
    const { table, mix, drift } = this;
    const { start, size, lead } = table;
    for (let p = 0; p < size; p++) {
      const log = start.begin[p]! + (start.known === null ? 0 : start.known(c, p)) - base;
      if (log <= -60) continue;
      this.touch(c, p);
      for (let k = 0; k < LANES; k++) mix[k]![p] = Math.exp(log);
    }
    for (let b = 0; b < LANES; b++) {
      const row = this.row(c, b);
      for (let p = 0; p + 1 < size; p++) {
        if (row[p] === 0 || p + 1 === lead) continue;
        this.touch(c, p + 1);
        for (let k = 0; k < LANES; k++) mix[k]![p + 1]! += drift[b * LANES + k]! * row[p]!;
      }
    }
  }

  /** Gathers what reached a column in states from `from` to `to` (not included), each of which goes on to the next. */
  private gatherRows(c: number, from: number, to: number): void {
    const { mix, drift, touched, seen } = this;
    const [m0, m1, m2] = mix;
    const [r0, r1, r2] = [this.row(c, 0), this.row(c, 1), this.row(c, 2)];
    const [a0, a1, a2] = [drift[0]!, drift[1]!, drift[2]!];
    const [b0, b1, b2] = [drift[3]!, drift[4]!, drift[5]!];
    const [c0, c1, c2] = [drift[6]!, drift[7]!, drift[8]!];
    let many = this.many;
    for (let p = from; p < to; p++) {
      const x = r0[p]!;
      const y = r1[p]!;
      const z = r2[p]!;
      if (x === 0 && y === 0 && z === 0) continue;
      m0[p + 1] = a0 * x + b0 * y + c0 * z;
      m1[p + 1] = a1 * x + b1 * y + c1 * z;
      m2[p + 1] = a2 * x + b2 * y + c2 * z;
      touched[many++] = p + 1;
      seen[p + 1] = c;
    }
    this.many = many;
  }

  /** The form's first beat comes after its last, and after that of the lead. */
  private gatherForm(c: number, opening: boolean): void {
    const { mix, drift } = this;
    const { size, lead } = this.table;
    if (!opening) this.seen[lead] = -1;
    for (let b = 0; b < LANES; b++) {
      const row = this.row(c, b);
      for (const p of [lead - 1, size - 1]) {
        if (row[p] === 0) continue;
        this.touch(c, lead);
        for (let k = 0; k < LANES; k++) mix[k]![lead]! += drift[b * LANES + k]! * row[p]!;
      }
    }
  }

  private gatherHeld(c: number, base: number): void {
    const { table, held, heldStates, heldMany } = this;
    const kinds = table.lengths.length;
    table.waited[c] = this.heldColumns;
    for (let i = 0; i < heldMany; i++) this.touch(c, heldStates[i]!);
    for (let k = 0; k < kinds; k++) {
      const into = this.mix[k]!;
      const factor =
        (table.start.pauses / this.heldColumns) *
        this.drift[(kinds >> 1) * LANES + k]! *
        Math.exp(this.heldOffset - base);
      for (let i = 0; i < heldMany; i++) into[heldStates[i]!]! += factor * held[heldStates[i]!]!;
    }
  }

  /** Log of what a gathered column is weighed against. */
  baseOf(c: number, opening: boolean): number {
    const offset = this.table.offset[c]!;
    return Number.isNaN(offset) ? (opening ? 0 : this.heldOffset) : offset;
  }

  /** Keeps what reached the column that was gathered last, so that it may go on later in the same gap. */
  hold(c: number): void {
    const { held, heldStates, touched, arrived } = this;
    const { offset, size, lead } = this.table;
    const [r0, r1, r2] = [this.row(c, 0), this.row(c, 1), this.row(c, 2)];
    if (this.heldColumns === 0) this.heldOffset = offset[c]!;
    const factor = Math.exp(offset[c]! - this.heldOffset);
    this.heldColumns++;
    let many = this.heldMany;
    for (let i = 0; i < arrived; i++) {
      const q = touched[i]!;
      const before = held[q]!;
      let now = before;
      if (q === lead) {
        for (const row of [r0, r1, r2]) {
          now += factor * row[lead - 1]!;
          now += factor * row[size - 1]!;
        }
      } else if (q > 0) now = now + factor * r0[q - 1]! + factor * r1[q - 1]! + factor * r2[q - 1]!;
      if (before === 0 && now > 0) heldStates[many++] = q;
      held[q] = now;
    }
    this.heldMany = many;
  }

  forget(): void {
    for (let i = 0; i < this.heldMany; i++) this.held[this.heldStates[i]!] = 0;
    this.heldMany = 0;
    this.heldColumns = 0;
  }
}
