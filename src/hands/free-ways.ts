/** The cheapest ways from the free hand at one event to every finger at the next. */
import { FINGERS } from "./event-costs.ts";
import type { ViterbiColumns } from "./viterbi-columns.ts";

export class FreeWays {
  /** For every finger the row that is come from (-1 for none), and what it costs until then. */
  readonly rows = new Int32Array(FINGERS);
  readonly costs = new Float64Array(FINGERS);

  /**
   * Reads the rows of the free hand, from one to before another.
   *
   * @param pairs what finger b costs after finger a, at `base` + 6 a + b
   */
  read(columns: ViterbiColumns, from: number, to: number, pairs: Float64Array, base: number): void {
    const { cost, finger } = columns;
    for (let next = 0; next < FINGERS; next++) {
      let row = -1;
      let least = Number.POSITIVE_INFINITY;
      for (let k = from; k < to; k++) {
        const reached = cost[k]! + pairs[base + 6 * finger[k]! + next]!;
        if (reached >= least) continue;
        row = k;
        least = reached;
      }
      this.rows[next] = row;
      this.costs[next] = least;
    }
  }
}
