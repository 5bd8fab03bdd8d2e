import { PERIOD } from "./line-model.ts";
import type { StepTable } from "./step-table.ts";

/** What the strokes in the beat of a step, and the pins, say of the states that are followed. */
export class BeatFactors {
  private readonly table: StepTable;
  private readonly factors: Float64Array;
  private readonly metre = new Float64Array(PERIOD);

  constructor(table: StepTable) {
    this.table = table;
    this.factors = table.room.take("factors", Float64Array, table.size);
  }

  /** A factor for each of the first `count` states, good until it is asked again. */
  weigh(column: number, k: number, states: Int32Array, count: number): Float64Array {
    const { factors, metre } = this;
    // A period is a power of two.
    const last = PERIOD - 1;
    const { strokeAt, grid, evidence, pins } = this.table;
    const end = column + this.table.lengths[k]!;
    const [from, to] = [strokeAt[column]!, strokeAt[end]!];
    const at = grid.times[column]!;
    const seconds = grid.times[end]! - at;
    if (to === from) factors.fill(1, 0, count);
    else {
      // The lead is as long as whole periods, so that the form begins one.
      const row = evidence.beats.pitches(from, to, at, seconds);
      if (evidence.beats.metre(from, to, at, seconds, metre)) {
        for (let i = 0; i < count; i++) {
          const p = states[i]!;
          factors[i] = row[p]! * metre[p & last]!;
        }
      } else {
        for (let i = 0; i < count; i++) factors[i] = row[states[i]!]!;
      }
    }
    pins?.weigh(at, seconds, states, count, factors);
    return factors;
  }
}
