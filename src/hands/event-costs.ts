/** What one event asks of every placement and finger, whatever the hand did before: read once for all that is entered. */
import type { Finger } from "../take/index.ts";
import type { HandEvent } from "./hand-event.ts";
import { type StepCosts, slideCost } from "./step-costs.ts";
import type { Strain } from "./strain.ts";

/** Fingers of the free hand on a single key, and none where several are struck. */
export const FINGERS = 6;

export class EventCosts {
  readonly #costs: StepCosts;
  readonly #strain: Strain;
  /** What arriving in a state and staying in it cost, by shape and pitch class of the anchor as the view counts them. */
  readonly arrivals: Float64Array;
  readonly stayings: Float64Array;
  /** What a finger of a placement costs on the event's highest key, and sliding there with it. */
  readonly lying = new Float64Array(FINGERS);
  readonly slides = new Float64Array(FINGERS);

  constructor(costs: StepCosts, strain: Strain) {
    this.#costs = costs;
    this.#strain = strain;
    this.arrivals = new Float64Array(12 * costs.view.held.length);
    this.stayings = new Float64Array(12 * costs.view.held.length);
  }

  /** Reads event i; the event before it must have been read last. */
  read(event: HandEvent, before: HandEvent | null, i: number): void {
    const isNew = before === null || before.span !== event.span || before.comingSpan !== event.comingSpan;
    if (isNew) this.#costs.arrivals(event, this.arrivals);
    if (before !== null) this.#costs.stayings(event, before, this.stayings);
    for (let finger = 0; finger < FINGERS; finger++) this.lying[finger] = this.#strain.placed(i, finger);
    this.slides.fill(Number.POSITIVE_INFINITY);
    // Most keys lie farther from the one before than a finger slides.
    if (before === null || Math.abs(event.keys[0]! - before.keys[0]!) !== 1) return;
    for (let finger = 0; finger < FINGERS; finger++) {
      this.slides[finger] = slideCost(event, before, finger as Finger) ?? Number.POSITIVE_INFINITY;
    }
  }
}
