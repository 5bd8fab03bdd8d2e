/** The steps of a lattice that are followed, each with the states that are still worth it. */
import { beatShares } from "./beat-shares.ts";
import type { Evidence } from "./evidence.ts";
import type { LatticeGrid, LatticeStart } from "./lattice-types.ts";
import { PinWeights } from "./pin-weights.ts";
import type { Room } from "./room.ts";
import { rhythmOf, strokesAt } from "./step-rhythm.ts";

/** Steps with a smaller share by the rhythm alone are not weighed against the chart. */
const CLOSED = 5e-4;

/**
 * Entries from which on the rest is reckoned from the part of the take that is done, how much more than that is made room
 * for, since places that are nearly as good gather on the way, and how much at once. What is not written to takes no memory.
 */
const MANY = 1 << 20;
const MORE = 2;
const AT_ONCE = 32;

export class StepTable {
  /** States, and the one that is reached from the form's end and from the lead. */
  readonly size: number;
  readonly lead: number;
  readonly columns: number;
  readonly lengths: readonly number[];
  readonly evidence: Evidence;
  readonly grid: LatticeGrid;
  readonly start: LatticeStart;
  readonly drift: Float64Array;
  /** First stroke that belongs to a beat beginning at the column or later. */
  readonly strokeAt: Int32Array;
  /** Log density of the rhythm of each step, and whether the step is followed. */
  readonly rhythm: Float64Array;
  readonly open: Uint8Array;
  /** Log evidence of the strokes by their rhythm alone. */
  readonly rhythmEvidence: number;
  /** Row of each (column that is reached, length), -1 for none. */
  readonly rowOf: Int32Array;
  /** Entries of each row: from here to where the next row's begin. */
  entryOf: Int32Array;
  /** Column that a row's step leaves, and the index of its length. */
  columnOf: Int32Array;
  kindOf: Uint8Array;
  rows = 0;
  entries = 0;
  /** State of the beat that an entry's step takes. */
  state: Uint16Array;
  /** What the strokes in that beat say of the state. */
  factor: Float64Array;
  /**
   * Share of the readings up to the entry's end, against `exp(offset)` of the column that is reached. The pass back puts the
   * share of all readings that take the entry's step in its place: a take of an hour has tens of millions of entries.
   */
  value: Float64Array;
  readonly offset: Float64Array;
  /** Columns of the same gap between strokes from which a column may be reached by waiting. */
  readonly waited: Int32Array;
  readonly room: Room;
  private readonly sumOnly: boolean;
  readonly pins: PinWeights | null;
  /** The state after a beat: the form's last beat leads to its first, as the lead's does. */
  readonly next: Uint16Array;

  /** @param sumOnly whether the rows behind the last strokes will not be asked for */
  constructor(evidence: Evidence, grid: LatticeGrid, start: LatticeStart, sumOnly = false) {
    this.sumOnly = sumOnly;
    this.evidence = evidence;
    this.grid = grid;
    this.start = start;
    this.size = evidence.form.states;
    this.lead = evidence.form.lead;
    this.columns = grid.times.length;
    this.lengths = grid.lengths;
    this.drift = grid.drift.map(Math.exp);
    const room = evidence.room;
    this.room = room;
    const steps = this.columns * this.lengths.length;
    this.rowOf = room.take("rowOf", Int32Array, steps).fill(-1, 0, steps);
    this.waited = room.clear("waited", Int32Array, this.columns);
    this.entryOf = room.take("entryOf", Int32Array, 1);
    this.columnOf = room.take("columnOf", Int32Array, 1);
    this.kindOf = room.take("kindOf", Uint8Array, 1);
    this.state = room.take("state", Uint16Array, 1);
    this.factor = room.take("factor", Float64Array, 1);
    this.value = room.take("value", Float64Array, 1);
    this.offset = new Float64Array(this.columns).fill(Number.NaN);
    this.next = Uint16Array.from({ length: this.size }, (_, p) => (p + 1 === this.size ? this.lead : p + 1));
    this.pins = start.pins.length === 0 ? null : new PinWeights(start.pins, evidence.form);
    this.strokeAt = strokesAt(evidence, grid);
    this.rhythm = rhythmOf(evidence, grid, this.strokeAt);
    const byRhythm = beatShares(evidence, grid, this.rhythm, this.strokeAt, CLOSED);
    this.open = byRhythm.open;
    this.rhythmEvidence = byRhythm.evidence;
  }

  /** False for steps that are only passed through, where the sum forwards is all that is wanted. */
  keeps(target: number): boolean {
    return this.sumOnly === false || this.strokeAt[target]! >= this.evidence.strokes.count;
  }

  /** Adds those of the first `count` states in which something reaches the end of a step, as a row. */
  addRow(
    column: number,
    k: number,
    states: Int32Array,
    factors: Float64Array,
    values: Float64Array,
    count: number,
  ): void {
    const from = this.entries;
    if (from + count > this.state.length) this.growEntries(from + count, column);
    const { state, factor, value } = this;
    let e = from;
    for (let i = 0; i < count; i++) {
      const p = states[i]!;
      const here = values[p]!;
      if (here === 0) continue;
      state[e] = p;
      factor[e] = factors[i]!;
      value[e++] = here;
    }
    this.entries = e;
    if (this.rows + 2 > this.entryOf.length) this.growRows();
    this.rowOf[(column + this.lengths[k]!) * this.lengths.length + k] = this.rows;
    this.columnOf[this.rows] = column;
    this.kindOf[this.rows] = k;
    this.entryOf[this.rows++] = from;
    this.entryOf[this.rows] = e;
  }

  /**
   * Entries of which no two that leave columns within the longest step of each other have one place in a row of such
   * a length, a power of two.
   */
  turn(): number {
    const reach = this.lengths.at(-1)! + 1;
    let [most, from] = [1, 0];
    for (let row = 0; row < this.rows; row++) {
      while (this.columnOf[row]! - this.columnOf[from]! > reach) from++;
      most = Math.max(most, this.entryOf[row + 1]! - this.entryOf[from]!);
    }
    let turn = 1;
    while (turn < most) turn *= 2;
    return turn;
  }

  /** Many entries are made room for as far as the take will need it: each growth leaves a row behind that is not used. */
  private growEntries(least: number, column: number): void {
    const inAll = Math.ceil((MORE * least * this.columns) / (column + 1));
    const length = least < MANY ? least : Math.max(least, Math.min(inAll, AT_ONCE * least));
    this.state = this.room.grow("state", this.state, length);
    this.factor = this.room.grow("factor", this.factor, length);
    this.value = this.room.grow("value", this.value, length);
  }

  private growRows(): void {
    const length = this.rows + 2;
    this.entryOf = this.room.grow("entryOf", this.entryOf, length);
    this.columnOf = this.room.grow("columnOf", this.columnOf, length);
    this.kindOf = this.room.grow("kindOf", this.kindOf, length);
  }
}
