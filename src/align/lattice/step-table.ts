/** The steps of a lattice that are followed, with a row over the states for each. */
import { mod } from "../../pitch/index.ts";
import { beatShares } from "./beat-shares.ts";
import type { Evidence } from "./evidence.ts";
import type { LatticeGrid, LatticeStart } from "./lattice-types.ts";
import { rhythmOf, strokesAt } from "./step-rhythm.ts";

/** Beats by which a pin may lie beside its place: a hand that pins is no more exact. */
const PINNED = 0.1;

/** Steps with a smaller share by the rhythm alone are not weighed against the chart. */
const CLOSED = 5e-4;

export class StepTable {
  /** States, and the one that is reached from the form's end and from the lead. */
  readonly size: number;
  readonly lead: number;
  readonly columns: number;
  readonly lengths: readonly number[];
  /** First stroke that belongs to a beat beginning at the column or later. */
  readonly strokeAt: Int32Array;
  /** Row of each (column that is reached, length) in the pool, -1 for none. */
  readonly rowOf: Int32Array;
  /** Column that a row's step leaves, and the index of its length. */
  columnOf: Int32Array;
  kindOf: Uint8Array;
  /** Share of the readings up to each row's end by state; after the backward pass, of all readings by the step's state. */
  pool: Float32Array;
  rows = 0;
  scale: Float64Array;
  /** Share of each row's first beat of the form that came from the form's end, not from the lead. */
  again: Float32Array;
  /** Rows that are needed at a time lie within this number of each other. */
  readonly window: number;
  readonly evidence: Evidence;
  readonly grid: LatticeGrid;
  readonly start: LatticeStart;
  readonly drift: Float64Array;
  readonly step: Float32Array;
  /** Log density of the rhythm of each step, and whether the step is followed. */
  readonly rhythm: Float64Array;
  readonly open: Uint8Array;
  /** Log evidence of the strokes by their rhythm alone. */
  readonly rhythmEvidence: number;

  constructor(evidence: Evidence, grid: LatticeGrid, start: LatticeStart) {
    this.evidence = evidence;
    this.grid = grid;
    this.start = start;
    this.size = evidence.form.states;
    this.lead = evidence.form.lead;
    this.columns = grid.times.length;
    this.lengths = grid.lengths;
    this.window = 3 * this.lengths.at(-1)! * this.lengths.length + this.lengths.length;
    this.rowOf = new Int32Array(this.columns * this.lengths.length).fill(-1);
    this.columnOf = new Int32Array(1024);
    this.kindOf = new Uint8Array(1024);
    this.pool = new Float32Array(this.size * 1024);
    this.scale = new Float64Array(1024);
    this.again = new Float32Array(1024);
    this.drift = grid.drift.map(Math.exp);
    this.step = new Float32Array(this.size);
    this.strokeAt = strokesAt(evidence, grid);
    this.rhythm = rhythmOf(evidence, grid, this.strokeAt);
    const byRhythm = beatShares(grid, this.rhythm, this.strokeAt, evidence.strokes.count, CLOSED);
    this.open = byRhythm.open;
    this.rhythmEvidence = byRhythm.evidence;
  }

  newRow(column: number, k: number): number {
    const row = this.rows++;
    if (this.rows * this.size > this.pool.length) this.pool = longer(this.pool, 1.5);
    if (this.rows > this.scale.length) {
      this.scale = longer(this.scale, 2);
      this.again = longer(this.again, 2);
      this.columnOf = longer(this.columnOf, 2);
      this.kindOf = longer(this.kindOf, 2);
    }
    this.rowOf[(column + this.lengths[k]!) * this.lengths.length + k] = row;
    this.columnOf[row] = column;
    this.kindOf[row] = k;
    return row;
  }

  /** Takes back the row that was made last. */
  dropRow(): void {
    const row = --this.rows;
    const k = this.kindOf[row]!;
    this.rowOf[(this.columnOf[row]! + this.lengths[k]!) * this.lengths.length + k] = -1;
  }

  /** Fills `this.step` with the factors of the strokes in a beat; returns their log density of time. */
  emission(column: number, k: number): number {
    const end = column + this.lengths[k]!;
    const [from, to] = [this.strokeAt[column]!, this.strokeAt[end]!];
    const at = this.grid.times[column]!;
    const seconds = this.grid.times[end]! - at;
    const { evidence, size, step, lead } = this;
    const { count } = evidence.form;
    step.fill(1);
    if (to > from) evidence.weigh(from, to, at, seconds, step);
    for (const pin of this.start.pins) {
      if (pin.seconds < at || pin.seconds >= at + seconds) continue;
      const place = (pin.seconds - at) / seconds;
      for (let p = 0; p < size; p++) {
        const beat = pin.beat - place - (p - lead);
        const away = p < lead ? beat : mod(beat + count / 2, count) - count / 2;
        step[p]! *= Math.exp(-Math.min(30, 0.5 * (away / PINNED) ** 2));
      }
    }
    if (this.start.pins.length > 1) this.keepTo(at);
    return this.rhythm[column * this.lengths.length + k]!;
  }

  /** Between pins the number of beats is known, so that no chorus is lost or added on the way. */
  private keepTo(seconds: number): void {
    const { pins } = this.start;
    const { count } = this.evidence.form;
    let k = 1;
    while (k + 1 < pins.length && pins[k]!.seconds < seconds) k++;
    const [from, to] = [pins[k - 1]!, pins[k]!];
    const pace = (to.beat - from.beat) / (to.seconds - from.seconds);
    const expected = from.beat + (seconds - from.seconds) * pace;
    const away = pace * Math.min(Math.abs(seconds - from.seconds), Math.abs(to.seconds - seconds));
    const band = Math.min(BAND * count, NEAR + WANDERING * away);
    for (let p = this.lead; p < this.size; p++) {
      const off = mod(expected - (p - this.lead) + count / 2, count) - count / 2;
      if (Math.abs(off) > band) this.step[p]! *= OUTSIDE;
    }
  }
}

/**
 * Beats by which a take may be off a straight line between two pins: this many, with this share of the beats to the
 * nearer one, and at most this share of the form; readings outside count for so much less a beat.
 */
const NEAR = 3;
const WANDERING = 0.08;
const BAND = 0.45;
const OUTSIDE = 0.01;

type Column = Float32Array | Float64Array | Int32Array | Uint8Array;

function longer<T extends Column>(column: T, by: number): T {
  const result = new (column.constructor as new (length: number) => T)(Math.ceil(column.length * by));
  result.set(column);
  return result;
}
