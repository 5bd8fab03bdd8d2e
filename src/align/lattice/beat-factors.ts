import { PERIOD } from "./line-model.ts";
import type { StepTable } from "./step-table.ts";

/** What the strokes in the beat of a step, and the pins, say of each state. */
export class BeatFactors {
  private readonly table: StepTable;
  private readonly factors: Float64Array;
  private readonly ones: Float64Array;
  private readonly metre = new Float64Array(PERIOD);

  constructor(table: StepTable) {
    this.table = table;
    this.factors = table.room.take("factors", Float64Array, table.size);
    this.ones = table.room.take("ones", Float64Array, table.size).fill(1, 0, table.size);
  }

  /** A factor for each of the states from one to before another, good until it is asked again; not to be written to. */
  weigh(column: number, k: number, from: number, to: number): Float64Array {
    const { factors, metre } = this;
    const { strokeAt, grid, evidence, pins } = this.table;
    const end = column + this.table.lengths[k]!;
    const [first, last] = [strokeAt[column]!, strokeAt[end]!];
    const at = grid.times[column]!;
    const seconds = grid.times[end]! - at;
    let row = this.ones;
    if (last !== first) {
      row = evidence.beats.pitches(first, last, at, seconds);
      if (evidence.beats.metre(first, last, at, seconds, metre)) {
        // A period is a power of two; the lead is as long as whole periods, so that the form begins one.
        const turn = PERIOD - 1;
        for (let p = from; p < to; p++) factors[p] = row[p]! * metre[p & turn]!;
        row = factors;
      }
    }
    if (pins === null) return row;
    if (row !== factors) for (let p = from; p < to; p++) factors[p] = row[p]!;
    pins.weigh(at, seconds, from, to, factors);
    return factors;
  }
}
