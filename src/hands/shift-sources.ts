/** Where the hand can shift from into an event, and what a shift then costs: read once for all states that are entered. */
import { PLACEMENT_COSTS as COST } from "./costs.ts";
import { shiftCost } from "./step-costs.ts";

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
  readonly #leadCosts = new Float64Array(6).fill(Number.POSITIVE_INFINITY);
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

  /** Tells of a state that may be shifted from at the next event. */
  tell(cost: number, place: number, finger: number): void {
    if (cost >= this.#leadCosts[finger]!) return;
    this.#leadCosts[finger] = cost;
    this.#leadPlaces[finger] = place;
  }

  /** False where another state with the same finger is cheaper by more than the way from the one place to the other. */
  canPay(cost: number, place: number, finger: number): boolean {
    const shifts = this.#shifts;
    const away = Math.min(FARTHEST, Math.abs(place - this.#leadPlaces[finger]!));
    return cost <= this.#leadCosts[finger]! + shifts[away]! - shifts[0]! + DUST;
  }

  add(row: number, cost: number, place: number, finger: number): void {
    if (this.count === this.rows.length) this.#grow();
    const n = this.count++;
    this.rows[n] = row;
    this.costs[n] = cost;
    this.places[n] = place;
    this.fingers[n] = finger;
  }

  /** Fills `leastTo` and `rowTo` by all that was added, and forgets what was told. `pairs`: what finger b costs after finger a, at `base` + 6 a + b. */
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
    this.#leadCosts.fill(Number.POSITIVE_INFINITY);
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

  #grow(): void {
    const wider = 2 * this.count;
    const [rows, costs, places, fingers] = [this.rows, this.costs, this.places, this.fingers];
    this.rows = new Int32Array(wider);
    this.costs = new Float64Array(wider);
    this.places = new Int16Array(wider);
    this.fingers = new Uint8Array(wider);
    this.rows.set(rows);
    this.costs.set(costs);
    this.places.set(places);
    this.fingers.set(fingers);
  }
}
