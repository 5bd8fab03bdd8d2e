/** Where the hand can shift from into an event, and what a shift then costs: read once for all states that are entered. */
import { PLACEMENT_COSTS as COST } from "./costs.ts";
import { shiftCost } from "./step-costs.ts";

/** Shifts by more semitones cost no more. */
const FARTHEST = Math.max(COST.shift.most, COST.freeShift.most);

/** Two shifts cannot differ by more than this: dearer states than the best by more need not be shifted from. */
export const SHIFT_SPREAD = COST.shift.perSemitone * COST.shift.most + COST.mostPair + COST.lateStay;

/** The states of the event before from which a shift can pay, in columns. */
export class ShiftSources {
  count = 0;
  rows = new Int32Array(64);
  costs = new Float64Array(64);
  /** Key under the thumb, and the finger that played last. */
  places = new Int16Array(64);
  fingers = new Uint8Array(64);
  /** Cost of the cheapest. */
  #least = Number.POSITIVE_INFINITY;
  readonly #shifts = new Float64Array(FARTHEST + 1);

  /** Starts an event that the hand reaches with so much ease, 0 to 1. */
  begin(ease: number): void {
    this.count = 0;
    this.#least = Number.POSITIVE_INFINITY;
    for (let semitones = 0; semitones <= FARTHEST; semitones++) {
      this.#shifts[semitones] = shiftCost(semitones, ease);
    }
  }

  add(row: number, cost: number, place: number, finger: number): void {
    if (this.count === this.rows.length) this.#grow();
    const n = this.count++;
    this.rows[n] = row;
    this.costs[n] = cost;
    this.places[n] = place;
    this.fingers[n] = finger;
    if (cost < this.#least) this.#least = cost;
  }

  /** How many to try where a shift must cost less than `cost`, all else that it asks being `arrival`: all or none. */
  under(cost: number, arrival: number): number {
    return this.#least + (arrival + this.#shifts[0]!) < cost ? this.count : 0;
  }

  /** What the hand pays from one place to another. */
  shift(from: number, to: number): number {
    return this.#shifts[Math.min(FARTHEST, Math.abs(to - from))]!;
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
