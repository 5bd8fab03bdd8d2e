/** Where the hand can shift from into an event, and what a shift then costs: read once for all states that are entered. */
import { PLACEMENT_COSTS as COST } from "./costs.ts";
import { shiftCost } from "./step-costs.ts";
import type { ViterbiColumns } from "./viterbi-columns.ts";

/** Shifts by more semitones cost no more. */
const FARTHEST = Math.max(COST.shift.most, COST.freeShift.most);

/** Two shifts cannot differ by more than this: dearer states than the best by more need not be shifted from. */
export const SHIFT_SPREAD = COST.shift.perSemitone * COST.shift.most + COST.mostPair + COST.lateStay;

/** What sums taken in another order may differ by. */
export const DUST = 1e-9;

/** The states of the event before from which a shift can pay, in columns. */
export class ShiftSources {
  count = 0;
  rows = new Int32Array(64);
  costs = new Float64Array(64);
  /** Key under the thumb, and the finger that played last. */
  places = new Int16Array(64);
  fingers = new Uint8Array(64);
  /** For every finger the cheapest of them with what it costs to play with that finger next, and its row. */
  readonly leastTo = new Float64Array(6);
  readonly rowTo = new Int32Array(6);
  readonly #shifts = new Float64Array(FARTHEST + 1);
  /** For every finger the cheapest state that it played last in, and the place of the hand there. */
  readonly #leadCosts = new Float64Array(6);
  readonly #leadPlaces = new Int16Array(6);
  #ease = Number.NaN;

  /** Starts an event that the hand reaches with so much ease, 0 to 1. */
  begin(ease: number): void {
    this.count = 0;
    if (ease === this.#ease) return;
    this.#ease = ease;
    for (let semitones = 0; semitones <= FARTHEST; semitones++) {
      this.#shifts[semitones] = shiftCost(semitones, ease);
    }
  }

  /**
   * Adds the rows from one to before another that cost at most `bound`; not those that a cheaper one with the same finger
   * undercuts by more than the way from its place to theirs.
   *
   * @param places of all states, by the view
   */
  gather(columns: ViterbiColumns, from: number, to: number, bound: number, places: Int16Array): void {
    const { cost, state, finger } = columns;
    const shifts = this.#shifts;
    const [leadCosts, leadPlaces] = [this.#leadCosts.fill(Number.POSITIVE_INFINITY), this.#leadPlaces];
    for (let k = from; k < to; k++) {
      const last = finger[k]!;
      if (cost[k]! >= leadCosts[last]!) continue;
      leadCosts[last] = cost[k]!;
      leadPlaces[last] = places[state[k]!]!;
    }
    this.#reserve(to - from);
    const slack = DUST - shifts[0]!;
    let count = 0;
    for (let k = from; k < to; k++) {
      const [last, place] = [finger[k]!, places[state[k]!]!];
      const away = Math.min(FARTHEST, Math.abs(place - leadPlaces[last]!));
      if (cost[k]! > bound || cost[k]! > leadCosts[last]! + shifts[away]! + slack) continue;
      this.rows[count] = k;
      this.costs[count] = cost[k]!;
      this.places[count] = place;
      this.fingers[count++] = last;
    }
    this.count = count;
  }

  /** Fills `leastTo` and `rowTo`. `pairs`: what finger b costs after finger a, at `base` + 6 a + b. */
  reach(pairs: Float64Array, base: number): void {
    const { count, costs, fingers, rows, leastTo, rowTo } = this;
    leastTo.fill(Number.POSITIVE_INFINITY);
    rowTo.fill(-1);
    for (let n = 0; n < count; n++) {
      const at = base + 6 * fingers[n]!;
      const cost = costs[n]!;
      for (let finger = 0; finger <= 5; finger++) {
        const reached = cost + pairs[at + finger]!;
        if (reached >= leastTo[finger]!) continue;
        leastTo[finger] = reached;
        rowTo[finger] = rows[n]!;
      }
    }
  }

  /** Numbers that go to and from `cheapestTo`, kept here since they would be made into objects as arguments. */
  readonly asked = { arrival: new Float64Array(1), cost: new Float64Array(1) } as const;

  /**
   * The source from which a shift to a place is cheapest, if it costs less than `asked.cost`, where its cost is then left;
   * else -1. What is paid for the place itself stands in `asked.arrival`.
   */
  cheapestTo(place: number, finger: number, pairs: Float64Array, base: number): number {
    const arrival = this.asked.arrival[0]!;
    let best = this.asked.cost[0]!;
    const shifts = this.#shifts;
    const nearest = arrival + shifts[0]!;
    if (this.leastTo[finger]! + nearest - DUST >= best) return -1;
    const { count, costs, fingers, places } = this;
    const to = base + finger;
    let from = -1;
    for (let n = 0; n < count; n++) {
      const reached = costs[n]!;
      if (reached + nearest >= best) continue;
      const away = Math.abs(place - places[n]!);
      const shift = shifts[Math.min(FARTHEST, away)]!;
      const moved = reached + arrival + shift + pairs[to + 6 * fingers[n]!]!;
      if (moved >= best) continue;
      best = moved;
      from = n;
    }
    if (from < 0) return -1;
    this.asked.cost[0] = best;
    return this.rows[from]!;
  }

  /** What the hand pays at the least for a shift. */
  get least(): number {
    return this.#shifts[0]!;
  }

  #reserve(most: number): void {
    if (most <= this.rows.length) return;
    this.rows = new Int32Array(2 * most);
    this.costs = new Float64Array(2 * most);
    this.places = new Int16Array(2 * most);
    this.fingers = new Uint8Array(2 * most);
  }
}
