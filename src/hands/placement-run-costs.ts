/** What one run would cost from another placement, all before and after it left as it is. */
import { PLACEMENT_COSTS as COST, type Freedom } from "./costs.ts";
import type { HandEvent } from "./hand-event.ts";
import { indexOn, lowOf, shapeOf, stateOf } from "./shape-states.ts";
import { type StepCosts, shiftCost } from "./step-costs.ts";
import type { Strain } from "./strain.ts";
import { FREE, type Step } from "./viterbi-columns.ts";

/** Events first to last, inclusive, in one state. */
export interface Stretch {
  readonly state: number;
  readonly first: number;
  readonly last: number;
}

export interface RunMaterial {
  readonly costs: StepCosts;
  readonly strain: Strain;
  readonly freedom: Freedom;
  readonly events: readonly HandEvent[];
  readonly steps: readonly Step[];
}

/** States that hold a key of the run's first two events: those that might explain it as well. */
export function candidatesFor({ costs, events }: RunMaterial, run: Stretch): Set<number> {
  const candidates = new Set<number>();
  for (let i = run.first; i <= Math.min(run.last, run.first + 1); i++) {
    for (const key of events[i]!.keys) {
      costs.view.semitones.forEach((semitones, shape) => {
        for (const semitone of semitones) candidates.add(stateOf(shape, key - semitone));
      });
    }
  }
  return candidates;
}

/**
 * Cost of the run's events from a state, with the shift into it from the state before and out of it to the state
 * after (`FREE` for none). Gives up beyond `limit` and returns what it has then.
 */
export function costOfRun(
  material: RunMaterial,
  run: Stretch,
  state: number,
  before: number,
  after: number,
  limit = Number.POSITIVE_INFINITY,
): number {
  const { events, costs, steps, strain } = material;
  let cost = costs.arrival(events[run.first]!, state);
  if (costs.isAnywhere(events[run.first]!)) cost += material.freedom.anywhere;
  else if (cost === 0) cost -= material.freedom.own;
  if (cost > limit) return cost;
  cost += moveInto(material, run.first, before, state);
  const shape = shapeOf(state);
  let finger = 0;
  for (let i = run.first; i <= run.last && cost <= limit; i++) {
    const event = events[i]!;
    if (i > run.first) cost += costs.staying(state, event, events[i - 1]!);
    // A slide is a slide from any placement that has its black key under a finger.
    const slid = steps[i]!.manner === "slide" && indexOn(costs.view, state, events[i - 1]!.keys[0]!) >= 0;
    const top = topFinger(material, i, state);
    const emission = isPlain(event) ? (top === 0 ? null : costs.held(shape)) : costs.emission(event, state);
    const now = emission === null ? (slid ? finger : 0) : top;
    cost += emission ?? (slid ? COST.slide.short : costs.outside(event, state));
    if (!slid) cost += strain.placed(i, now) + (i > run.first ? strain.pair(i, finger, now) : 0);
    finger = now;
  }
  if (after !== FREE && cost <= limit) cost += moveInto(material, run.last + 1, state, after);
  return cost;
}

/** One key, its finger not printed: what it costs in a state is told by the state's shape alone. */
function isPlain({ keys, printed }: HandEvent): boolean {
  return keys.length === 1 && printed[0] === null;
}

/** Cost of the run's events for the free hand, each note with the finger that suits it best after the one before. */
export function costOfFreedom({ events, strain, freedom }: RunMaterial, run: Stretch): number {
  let [last, now] = [new Float64Array(6), new Float64Array(6)];
  for (let i = run.first; i <= run.last; i++) {
    const keys = events[i]!.keys.length;
    const notes = keys * freedom.note * strain.free(i);
    now.fill(Number.POSITIVE_INFINITY);
    if (keys > 1) now[0] = least(last) + notes;
    else {
      for (let finger = 1; finger <= 5; finger++) {
        let reached = i === run.first ? 0 : Number.POSITIVE_INFINITY;
        for (let a = 0; a <= 5 && i > run.first; a++) {
          reached = Math.min(reached, last[a]! + strain.pair(i, a, finger));
        }
        now[finger] = reached + strain.own(i, finger) + notes;
      }
    }
    [last, now] = [now, last];
  }
  return least(last);
}

function least(costs: Float64Array): number {
  let best = costs[0]!;
  for (const cost of costs) if (cost < best) best = cost;
  return best;
}

/** Points by which a run's placement explains its events better than the free hand, the moves into it and out left aside. */
export function overFree(material: RunMaterial, run: Stretch): number {
  const held = costOfRun(material, run, run.state, FREE, FREE) - material.freedom.margin;
  return costOfFreedom(material, run) - held;
}

function topFinger({ costs: { view }, events }: RunMaterial, i: number, state: number): number {
  const { keys } = events[i]!;
  return view.fingerAt[shapeOf(state)]![keys[keys.length - 1]! - lowOf(state)] ?? 0;
}

/** From the free hand, or to begin with, a placement has the margin against it; from another place the shift. */
function moveInto(material: RunMaterial, i: number, from: number, to: number): number {
  const { costs, events, strain, freedom } = material;
  const event = events[i];
  if (event === undefined || from === to) return 0;
  if (i === 0 || from === FREE) return freedom.margin;
  const { view } = costs;
  const pair = strain.pair(i, topFinger(material, i - 1, from), topFinger(material, i, to));
  return shiftCost(view.places[to]! - view.places[from]!, event.ease) + pair;
}
