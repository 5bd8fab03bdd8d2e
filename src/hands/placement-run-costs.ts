/** What one run would cost from another placement, all before and after it left as it is. */
import { PLACEMENT_COSTS as COST, type Freedom } from "./costs.ts";
import type { HandEvent } from "./hand-event.ts";
import { type ShapeFingers, shapeFingers } from "./shape-fingers.ts";
import { indexOn } from "./shape-states.ts";
import { type StepCosts, shiftCost } from "./step-costs.ts";
import type { Strain } from "./strain.ts";
import { FREE, type Step } from "./viterbi-columns.ts";

/** What sums of the same costs in another order may differ by. */
const DUST = 1e-9;

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

/** What is asked of an event: a single key without a printed finger costs what its state's shape says; a slide may cost less. */
const PLAIN = 1;
const SLID = 2;
/** Another chord sounds than at the event before, or the same of another chorus. */
const CHANGED = 4;

/** Costs of the runs of one line, whose events are read once for all that is asked. */
export class RunCosts {
  readonly #material: RunMaterial;
  readonly #fingers: ShapeFingers;
  /** Of every event the highest key, and the marks above. */
  readonly #tops: Int16Array;
  readonly #marks: Uint8Array;
  /** How many events before each one, and before the end, are reached by no slide: they cost a note of the shape or more. */
  readonly #steady: Int32Array;
  /** The call of `candidates` that found a state last. */
  readonly #found: Int32Array;
  #calls = 0;
  /** What the free hand has paid until an event, by the finger there, and until the next one. */
  readonly #ways = [new Float64Array(6), new Float64Array(6)] as const;

  constructor(material: RunMaterial) {
    const { costs, events, steps } = material;
    this.#material = material;
    this.#fingers = shapeFingers(
      costs.view,
      costs,
      costs.view.held.map((_, shape) => shape),
    );
    this.#found = new Int32Array(costs.view.states);
    this.#tops = new Int16Array(events.length);
    this.#marks = new Uint8Array(events.length);
    this.#steady = new Int32Array(events.length + 1);
    events.forEach(({ keys, printed, span, chorus }, i) => {
      const before = events[i - 1];
      this.#tops[i] = keys[keys.length - 1]!;
      this.#marks[i] =
        (keys.length === 1 && printed[0] === null ? PLAIN : 0) +
        (steps[i]!.manner === "slide" ? SLID : 0) +
        (before !== undefined && (span !== before.span || chorus !== before.chorus) ? CHANGED : 0);
      this.#steady[i + 1] = this.#steady[i]! + (steps[i]!.manner === "slide" ? 0 : 1);
    });
  }

  /** States that hold a key of a run's first two events, as they are found: those that might explain it as well. */
  candidates(run: Stretch): number[] {
    const { states, count } = this.#fingers;
    const found: number[] = [];
    this.#calls++;
    for (let i = run.first; i <= Math.min(run.last, run.first + 1); i++) {
      for (const key of this.#material.events[i]!.keys) {
        for (let c = 0; c < count; c++) {
          const state = states[c]! + key;
          if (this.#found[state] === this.#calls) continue;
          this.#found[state] = this.#calls;
          found.push(state);
        }
      }
    }
    return found;
  }

  /**
   * Cost of the run's events from a state, with the shift into it from the state before and out of it to the state
   * after (`FREE` for none). Where that is more than `limit`, it gives up as soon as it is sure and returns infinity.
   */
  from(run: Stretch, state: number, before: number, after: number, limit = Number.POSITIVE_INFINITY): number {
    const { events, costs, strain, freedom } = this.#material;
    const opening = events[run.first]!;
    let cost = costs.arrival(opening, state);
    if (costs.isAnywhere(opening)) cost += freedom.anywhere;
    else if (cost === 0) cost -= freedom.own;
    const bound = limit + DUST;
    const held = costs.held(costs.view.shapes[state]!);
    let rest = held * (this.#steady[run.last + 1]! - this.#steady[run.first]!);
    if (after !== FREE) rest += this.#leastMove(run.last + 1, state, after);
    if (cost + rest + this.#leastMove(run.first, before, state) > bound) return Number.POSITIVE_INFINITY;
    cost += this.#moveInto(run.first, before, state);
    const { pairs, owns } = strain;
    let finger = 0;
    for (let i = run.first; i <= run.last; i++) {
      if (cost + rest > bound) return Number.POSITIVE_INFINITY;
      const marks = this.#marks[i]!;
      if (i > run.first && (marks & CHANGED) !== 0) cost += costs.staying(state, events[i]!, events[i - 1]!);
      // A slide is a slide from any placement that has its black key under a finger.
      const slid = (marks & SLID) !== 0 && indexOn(costs.view, state, events[i - 1]!.keys[0]!) >= 0;
      const top = this.#topFinger(i, state);
      let now = top;
      if ((marks & PLAIN) !== 0 && top !== 0) cost += held;
      else {
        const emission = (marks & PLAIN) !== 0 ? null : costs.emission(events[i]!, state);
        if (emission === null) now = slid ? finger : 0;
        cost += emission ?? (slid ? COST.slide.short : costs.outside(events[i]!, state));
      }
      if (!slid)
        cost += COST.lying * owns[6 * i + now]! + (i > run.first ? pairs[36 * i + 6 * finger + now]! : 0);
      if ((marks & SLID) === 0) rest -= held;
      finger = now;
    }
    if (after !== FREE) cost += this.#moveInto(run.last + 1, state, after);
    return cost > limit ? Number.POSITIVE_INFINITY : cost;
  }

  /** Cost of the run's events for the free hand, each note with the finger that suits it best after the one before. */
  free(run: Stretch): number {
    const { events, strain, freedom } = this.#material;
    let [last, now] = this.#ways;
    last.fill(0);
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

  /** Points by which a run's placement explains its events better than the free hand, the moves into it and out left aside. */
  overFree(run: Stretch): number {
    return this.free(run) - (this.from(run, run.state, FREE, FREE) - this.#material.freedom.margin);
  }

  /** The finger of a state on the event's highest key, 0 for none. */
  #topFinger(i: number, state: number): number {
    const { view } = this.#material.costs;
    const fingers = view.fingerAt[view.shapes[state]!]!;
    const at = this.#tops[i]! - view.lows[state]!;
    return at >= 0 && at < fingers.length ? fingers[at]! : 0;
  }

  /** What `#moveInto` costs at the least, however far it is. */
  #leastMove(i: number, from: number, to: number): number {
    const event = this.#material.events[i];
    if (event === undefined || from === to) return 0;
    return i === 0 || from === FREE ? this.#material.freedom.margin : shiftCost(0, event.ease);
  }

  /** From the free hand, or to begin with, a placement has the margin against it; from another place the shift. */
  #moveInto(i: number, from: number, to: number): number {
    const { costs, events, strain, freedom } = this.#material;
    const event = events[i];
    if (event === undefined || from === to) return 0;
    if (i === 0 || from === FREE) return freedom.margin;
    const { view } = costs;
    const pair = strain.pair(i, this.#topFinger(i - 1, from), this.#topFinger(i, to));
    return shiftCost(view.places[to]! - view.places[from]!, event.ease) + pair;
  }
}

function least(costs: Float64Array): number {
  let best = costs[0]!;
  for (const cost of costs) if (cost < best) best = cost;
  return best;
}
