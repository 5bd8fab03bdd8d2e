/** What one stay would cost from another placement, all before and after it left as it is. */
import { PLACEMENT_COSTS as COST } from "./costs.ts";
import type { HandEvent } from "./events.ts";
import { FREE, type Step } from "./path-columns.ts";
import { pairCost, type StepCosts, shiftCost } from "./step-costs.ts";
import { indexOn, shapeOf, stateOf } from "./view.ts";

/** Events first to last, inclusive, in one state. */
export interface Stretch {
  readonly state: number;
  readonly first: number;
  readonly last: number;
}

export interface StayMaterial {
  readonly costs: StepCosts;
  readonly events: readonly HandEvent[];
  readonly steps: readonly Step[];
}

/** States that hold a key of the stay's first two events: those that might explain it as well. */
export function candidatesFor({ costs, events }: StayMaterial, stay: Stretch): Set<number> {
  const candidates = new Set<number>();
  for (let i = stay.first; i <= Math.min(stay.last, stay.first + 1); i++) {
    for (const key of events[i]!.keys) {
      costs.view.semitones.forEach((semitones, shape) => {
        for (const semitone of semitones) candidates.add(stateOf(shape, key - semitone));
      });
    }
  }
  return candidates;
}

/**
 * Cost of the stay's events from a state, with the shift into it from the state before and out of it to the state
 * after (`FREE` for none). Gives up beyond `limit` and returns what it has then.
 */
export function costOfStay(
  material: StayMaterial,
  stay: Stretch,
  state: number,
  before: number,
  after: number,
  limit = Number.POSITIVE_INFINITY,
): number {
  const { events, costs, steps } = material;
  let cost = costs.arrival(events[stay.first]!, state);
  if (cost > limit) return cost;
  cost += moveInto(material, stay.first, before, state);
  for (let i = stay.first; i <= stay.last && cost <= limit; i++) {
    const event = events[i]!;
    if (i > stay.first) cost += costs.staying(state, event, events[i - 1]!);
    // A slide is a slide from any placement that has its black key under a finger.
    const slid = steps[i]!.manner === "slide" && indexOn(costs.view, state, events[i - 1]!.keys[0]!) >= 0;
    cost += costs.emission(event, state) ?? (slid ? COST.slide.short : costs.outside(event, state));
  }
  if (after !== FREE && cost <= limit) cost += moveInto(material, stay.last + 1, state, after);
  return cost;
}

function moveInto({ costs, events }: StayMaterial, i: number, from: number, to: number): number {
  const event = events[i];
  const before = events[i - 1];
  if (event === undefined || before === undefined || from === to || from === FREE) return 0;
  const { view } = costs;
  const [keyA, keyB] = [before.keys[before.keys.length - 1]!, event.keys[event.keys.length - 1]!];
  const [a, b] = [indexOn(view, from, keyA), indexOn(view, to, keyB)];
  const pair =
    a < 0 || b < 0
      ? 0
      : pairCost(view.fingers[shapeOf(from)]![a]!, view.fingers[shapeOf(to)]![b]!, keyB - keyA);
  return shiftCost(view.places[to]! - view.places[from]!, event.ease, pair);
}
