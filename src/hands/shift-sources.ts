/** Where the hand can shift from into an event, and what a shift then costs: read once for all states that are entered. */
import { PLACEMENT_COSTS as COST } from "./costs.ts";
import { shiftCost } from "./step-costs.ts";

/** Shifts by more semitones cost no more. */
const FARTHEST = Math.max(COST.shift.most, COST.freeShift.most);

/** Two shifts cannot differ by more than this: dearer states than the best by more need not be shifted from. */
export const SHIFT_SPREAD = COST.shift.perSemitone * COST.shift.most + COST.mostPair + COST.lateStay;

/** A state of the event before from which a shift can pay. */
export interface Source {
  readonly row: number;
  readonly cost: number;
  /** Key under the thumb, and the finger that played last. */
  readonly place: number;
  readonly finger: number;
}

export class ShiftSources {
  readonly all: Source[] = [];
  /** Cost of the cheapest. */
  least = Number.POSITIVE_INFINITY;
  readonly #shifts = new Float64Array(FARTHEST + 1);

  /** Starts an event that the hand reaches with so much ease, 0 to 1. */
  begin(ease: number): void {
    this.all.length = 0;
    this.least = Number.POSITIVE_INFINITY;
    for (let semitones = 0; semitones <= FARTHEST; semitones++) {
      this.#shifts[semitones] = shiftCost(semitones, ease);
    }
  }

  add(source: Source): void {
    this.all.push(source);
    this.least = Math.min(this.least, source.cost);
  }

  /** Those from which a shift can cost less than `cost`, all else that it asks being `arrival`. */
  under(cost: number, arrival: number): readonly Source[] {
    return this.least + (arrival + this.#shifts[0]!) < cost ? this.all : NONE;
  }

  /** What the hand pays from one place to another. */
  shift(from: number, to: number): number {
    return this.#shifts[Math.min(FARTHEST, Math.abs(to - from))]!;
  }
}

const NONE: readonly Source[] = [];
