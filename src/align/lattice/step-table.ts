/** The steps of a lattice that are followed, with a row over the beats of the form for each. */
import { beatShares } from "./beat-shares.ts";
import type { Evidence } from "./evidence.ts";
import type { LatticeGrid, LatticeStart } from "./lattice-types.ts";
import { CLOSED, rhythmOf, strokesAt } from "./step-rhythm.ts";

/** Beats by which a pin may lie beside its place: a hand that pins is no more exact. */
const PINNED = 0.1;

export class StepTable {
  readonly size: number;
  readonly columns: number;
  readonly lengths: readonly number[];
  /** First stroke that belongs to a beat beginning at the column or later. */
  readonly strokeAt: Int32Array;
  /** Row of each (column, length) in the pool, -1 for none. */
  readonly rowOf: Int32Array;
  pool: Float32Array;
  rows = 0;
  scale: Float64Array;
  readonly evidence: Evidence;
  readonly grid: LatticeGrid;
  readonly start: LatticeStart;
  readonly drift: Float64Array;
  readonly step: Float32Array;
  /** Log density of the rhythm of each step, and whether the step is followed. */
  readonly rhythm: Float64Array;
  readonly open: Uint8Array;

  constructor(evidence: Evidence, grid: LatticeGrid, start: LatticeStart) {
    this.evidence = evidence;
    this.grid = grid;
    this.start = start;
    this.size = evidence.form.count;
    this.columns = grid.times.length;
    this.lengths = grid.lengths;
    this.rowOf = new Int32Array(this.columns * this.lengths.length).fill(-1);
    this.pool = new Float32Array(this.size * 1024);
    this.scale = new Float64Array(1024);
    this.drift = grid.drift.map(Math.exp);
    this.step = new Float32Array(this.size);
    this.strokeAt = strokesAt(evidence, grid);
    this.rhythm = rhythmOf(evidence, grid, this.strokeAt);
    this.open =
      this.lengths.length === 1
        ? new Uint8Array(this.columns).fill(1)
        : beatShares(grid, this.rhythm, this.strokeAt, evidence.strokes.count, CLOSED).open;
  }

  newRow(column: number, k: number): number {
    if ((this.rows + 1) * this.size > this.pool.length) {
      const larger = new Float32Array(this.pool.length * 2);
      larger.set(this.pool);
      this.pool = larger;
    }
    if (this.rows + 1 > this.scale.length) {
      const larger = new Float64Array(this.scale.length * 2);
      larger.set(this.scale);
      this.scale = larger;
    }
    this.rowOf[column * this.lengths.length + k] = this.rows;
    return this.rows++;
  }

  /** Fills `this.step` with the factors of the strokes in a beat; returns their log density of time. */
  emission(column: number, k: number): number {
    const end = column + this.lengths[k]!;
    const [from, to] = [this.strokeAt[column]!, this.strokeAt[end]!];
    const at = this.grid.times[column]!;
    const seconds = this.grid.times[end]! - at;
    const { evidence, size, step } = this;
    step.fill(1);
    for (let s = from; s < to; s++) {
      const row = evidence.row(s, (evidence.strokes.time[s]! - at) / seconds);
      for (let p = 0; p < size; p++) step[p]! *= row[p]!;
    }
    for (const pin of this.start.pins) {
      if (pin.seconds < at || pin.seconds >= at + seconds) continue;
      const place = (pin.seconds - at) / seconds;
      for (let p = 0; p < size; p++) {
        const away = ((((pin.beat - place - p + size / 2) % size) + size) % size) - size / 2;
        step[p]! *= Math.exp(-Math.min(30, 0.5 * (away / PINNED) ** 2));
      }
    }
    return this.rhythm[column * this.lengths.length + k]!;
  }
}
