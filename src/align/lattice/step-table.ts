/** The steps of a lattice that are followed, each with the states that are still worth it. */
import { beatShares } from "./beat-shares.ts";
import type { Evidence } from "./evidence.ts";
import type { LatticeGrid, LatticeStart } from "./lattice-types.ts";
import { PinWeights } from "./pin-weights.ts";
import { rhythmOf, strokesAt } from "./step-rhythm.ts";

/** Steps with a smaller share by the rhythm alone are not weighed against the chart. */
const CLOSED = 5e-4;

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
  entryOf: Int32Array = new Int32Array(1024);
  /** Column that a row's step leaves, and the index of its length. */
  readonly columnOf: number[] = [];
  readonly kindOf: number[] = [];
  rows = 0;
  entries = 0;
  /** State of the beat that an entry's step takes. */
  state: Uint16Array = new Uint16Array(1 << 14);
  /** What the strokes in that beat say of the state. */
  factor: Float64Array = new Float64Array(1 << 14);
  /** Share of the readings up to the entry's end, against `exp(offset)` of the column that is reached. */
  value: Float64Array = new Float64Array(1 << 14);
  readonly offset: Float64Array;
  /** Columns of the same gap between strokes from which a column may be reached by waiting. */
  readonly waited: Int32Array;
  private readonly pins: PinWeights | null;

  constructor(evidence: Evidence, grid: LatticeGrid, start: LatticeStart) {
    this.evidence = evidence;
    this.grid = grid;
    this.start = start;
    this.size = evidence.form.states;
    this.lead = evidence.form.lead;
    this.columns = grid.times.length;
    this.lengths = grid.lengths;
    this.drift = grid.drift.map(Math.exp);
    this.rowOf = new Int32Array(this.columns * this.lengths.length).fill(-1);
    this.waited = new Int32Array(this.columns);
    this.offset = new Float64Array(this.columns).fill(Number.NaN);
    this.pins = start.pins.length === 0 ? null : new PinWeights(start.pins, evidence.form);
    this.strokeAt = strokesAt(evidence, grid);
    this.rhythm = rhythmOf(evidence, grid, this.strokeAt);
    const byRhythm = beatShares(grid, this.rhythm, this.strokeAt, evidence.strokes.count, CLOSED);
    this.open = byRhythm.open;
    this.rhythmEvidence = byRhythm.evidence;
  }

  /** The state after a beat: the form's last beat leads to its first, as the lead's does. */
  next(p: number): number {
    return p + 1 === this.size ? this.lead : p + 1;
  }

  /** Ends the entries that were added last as the row of a step. */
  closeRow(column: number, k: number, from: number): void {
    if (this.rows + 2 > this.entryOf.length) this.entryOf = longer(this.entryOf);
    this.rowOf[(column + this.lengths[k]!) * this.lengths.length + k] = this.rows;
    this.columnOf[this.rows] = column;
    this.kindOf[this.rows] = k;
    this.entryOf[this.rows++] = from;
    this.entryOf[this.rows] = this.entries;
  }

  add(state: number, factor: number, value: number): void {
    const e = this.entries++;
    if (e >= this.state.length) {
      this.state = longer(this.state);
      this.factor = longer(this.factor);
      this.value = longer(this.value);
    }
    this.state[e] = state;
    this.factor[e] = factor;
    this.value[e] = value;
  }

  /** What the strokes in a beat say of each of `count` states. */
  emission(column: number, k: number, states: Int32Array, count: number, into: Float64Array): void {
    const end = column + this.lengths[k]!;
    const [from, to] = [this.strokeAt[column]!, this.strokeAt[end]!];
    const at = this.grid.times[column]!;
    const seconds = this.grid.times[end]! - at;
    into.fill(1, 0, count);
    if (to > from) this.evidence.weigh(from, to, at, seconds, states, count, into);
    this.pins?.weigh(at, seconds, states, count, into);
  }
}

function longer<T extends Float64Array | Int32Array | Uint16Array>(column: T): T {
  const result = new (column.constructor as new (length: number) => T)(column.length * 2);
  result.set(column);
  return result;
}
