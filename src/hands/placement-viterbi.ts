/**
 * The cheapest account of one hand's line: which placement the hand is in at every event, by dynamic programming
 * (Viterbi) over placements. A state is a shape at a pitch, or the hand free of any shape. Only states that hold one
 * of the event's keys can be entered; states that hold none of them are carried along as "outside", and are dropped
 * as soon as coming back by a shift would be cheaper, so that their number stays small and the time is linear in the
 * number of notes.
 */
import type { Finger } from "../take/index.ts";
import { PLACEMENT_COSTS as COST, FREEDOM, type Freedom } from "./costs.ts";
import type { HandEvent } from "./hand-event.ts";
import { lowOf, type ShapeStates, shapeOf, stateOf } from "./shape-states.ts";
import { SHIFT_SPREAD, ShiftSources } from "./shift-sources.ts";
import { fingerStep, type StepCosts, shiftCost, slideCost } from "./step-costs.ts";
import type { Strain } from "./strain.ts";
import {
  AT_LARGE,
  CHANGE,
  FREE,
  HELD,
  OUTSIDE,
  type Path,
  SLIDE,
  ViterbiColumns,
} from "./viterbi-columns.ts";

/**
 * States dearer than the best by more than this are dropped: a shift from the best to where they stand costs less,
 * but for places that are not idiomatic; among those only what is nearly the best is kept.
 */
const BEAM = Math.max(COST.shift.base, FREEDOM.offered.margin) + SHIFT_SPREAD;

/** What sums taken in another order may differ by. */
const DUST = 1e-9;

/**
 * One hand's cheapest path through its events. Empty for no events.
 *
 * @param shapes indices of the view's shapes to search
 */
export function cheapestPath(
  events: readonly HandEvent[],
  costs: StepCosts,
  strain: Strain,
  freedom: Freedom,
  shapes: readonly number[] = costs.view.held.map((_, shape) => shape),
): Path {
  if (events.length === 0) return { steps: [], cost: 0 };
  const trellis = new Trellis(costs, strain, freedom, shapes, 32 * events.length);
  for (let i = 0; i < events.length; i++) trellis.add(events[i]!, i === 0 ? null : events[i - 1]!);
  return trellis.best();
}

class Trellis {
  readonly #costs: StepCosts;
  readonly #strain: Strain;
  readonly #freedom: Freedom;
  readonly #view: ShapeStates;
  readonly #shapes: readonly number[];
  readonly #rows: ViterbiColumns;
  #events = 0;
  /** Cost of the cheapest state of the event that is being entered. */
  #lowest = 0;
  #previous = 0;
  /** The least that a shift, or leaving the free hand, costs at the event. */
  #least = 0;
  /** For every state its place in the columns at the event before, where `#stamp` holds that event's number. */
  readonly #slot: Int32Array;
  readonly #stamp: Int32Array;
  /** The event at which a state was last entered. */
  readonly #entered: Int32Array;
  /** Placements of the event before from which a shift can pay, and the rows of the free hand. */
  readonly #sources = new ShiftSources();
  readonly #free: number[] = [];
  /** For every finger the cheapest way from the free hand to it: the row, and the cost there. */
  readonly #freeRow = new Int32Array(6);
  readonly #freeCost = new Float64Array(6);

  constructor(
    costs: StepCosts,
    strain: Strain,
    freedom: Freedom,
    shapes: readonly number[],
    capacity: number,
  ) {
    this.#rows = new ViterbiColumns(capacity);
    this.#costs = costs;
    this.#strain = strain;
    this.#freedom = freedom;
    this.#shapes = shapes;
    this.#view = costs.view;
    this.#slot = new Int32Array(this.#view.states);
    this.#stamp = new Int32Array(this.#view.states).fill(-1);
    this.#entered = new Int32Array(this.#view.states).fill(-1);
  }

  add(event: HandEvent, before: HandEvent | null): void {
    const start = this.#rows.count;
    this.#sources.begin(event.ease);
    const cheapest = this.#gatherSources(this.#previous, start);
    this.#enterAll(event, before, cheapest);
    if (before !== null) this.#carryAll(event, before, start);
    for (let k = start; k < this.#rows.count; k++) {
      const state = this.#rows.state[k]!;
      if (state === FREE) continue;
      this.#slot[state] = k;
      this.#stamp[state] = this.#events;
    }
    this.#previous = start;
    this.#events++;
  }

  best(): Path {
    return this.#rows.pathTo(this.#rows.cheapest(this.#previous, this.#rows.count));
  }

  #gatherSources(from: number, to: number): number {
    this.#free.length = 0;
    const best = this.#rows.cheapest(from, to);
    if (best < 0) return -1;
    const bound = this.#rows.cost[best]! + SHIFT_SPREAD;
    for (let k = from; k < to; k++) {
      if (this.#rows.state[k] === FREE) this.#free.push(k);
      else if (this.#rows.cost[k]! <= bound) {
        const place = this.#view.places[this.#rows.state[k]!]!;
        this.#sources.add(k, this.#rows.cost[k]!, place, this.#rows.finger[k]!);
      }
    }
    return best;
  }

  /** Enters the free hand, and all states that hold a key of the event: first those in which the hand may stay. */
  #enterAll(event: HandEvent, before: HandEvent | null, cheapest: number): void {
    const start = this.#rows.count;
    this.#enterFree(event, cheapest);
    this.#lowest = this.#rows.cost[this.#rows.cheapest(start, this.#rows.count)]!;
    this.#least = Math.min(this.#freedom.margin, shiftCost(0, event.ease));
    const floor = cheapest < 0 ? 0 : this.#rows.cost[cheapest]! + this.#strain.leastPair(this.#events) - DUST;
    if (before !== null) this.#enterHolding(event, before, true, floor);
    this.#enterHolding(event, before, false, floor);
  }

  /** `floor`: what any state that is come from costs at least, from the start of the line. */
  #enterHolding(event: HandEvent, before: HandEvent | null, staying: boolean, floor: number): void {
    const plain = event.keys.length === 1 && event.printed[0] === null;
    for (const shape of this.#shapes) {
      const semitones = this.#view.semitones[shape]!;
      const fingers = this.#view.fingers[shape]!;
      for (const key of event.keys) {
        for (let j = 0; j < semitones.length; j++) {
          const state = stateOf(shape, key - semitones[j]!);
          if (this.#entered[state] === this.#events) continue;
          const stood = this.#stamp[state] === this.#events - 1;
          if (staying !== stood && before !== null) continue;
          const finger = plain ? fingers[j]! : this.#costs.topFinger(event, state);
          const played = plain ? this.#costs.held(shape) : this.#costs.emission(event, state);
          const emission = played === null ? null : played + this.#strain.placed(this.#events, finger);
          if (before === null) this.#begin(event, state, emission, finger);
          else if (staying || (emission !== null && !this.#isHopeless(event, state, floor + emission))) {
            this.#enter(event, before, state, emission, finger);
          }
        }
      }
    }
  }

  /** True where even the cheapest way into a state, by a shift or a finger more or less, costs too much. */
  #isHopeless(event: HandEvent, state: number, floor: number): boolean {
    const bound = this.#lowest + BEAM;
    if (this.#view.relatives[shapeOf(state)]!.length > 0 && floor + COST.extraFinger <= bound) return false;
    return floor + this.#least + this.#costs.arrival(event, state) > bound;
  }

  #begin(event: HandEvent, state: number, emission: number | null, finger: number): void {
    if (emission === null) return;
    this.#entered[state] = this.#events;
    this.#rows.push(
      state,
      this.#freedom.margin + emission + this.#costs.arrival(event, state),
      -1,
      HELD,
      finger,
    );
  }

  /** The cheapest way into a state that holds a key: by staying, with the little finger added or left out, or by a shift. */
  #enter(event: HandEvent, before: HandEvent, state: number, emission: number | null, finger: number): void {
    const stayed = this.#stamp[state] === this.#events - 1 ? this.#slot[state]! : -1;
    if (emission === null) {
      if (stayed >= 0) this.#changeFinger(event, before, state, stayed);
      return;
    }
    this.#entered[state] = this.#events;
    let from = -1;
    let cost = Number.POSITIVE_INFINITY;
    if (stayed >= 0) {
      from = stayed;
      cost =
        this.#rows.cost[stayed]! +
        this.#costs.staying(state, event, before) +
        fingerStep(this.#rows.finger[stayed]!, finger) +
        this.#strain.pair(this.#events, this.#rows.finger[stayed]!, finger);
    }
    for (const relative of this.#view.relatives[shapeOf(state)]!) {
      const other = stateOf(relative.shape, lowOf(state) + relative.offset);
      if (this.#stamp[other] !== this.#events - 1) continue;
      const k = this.#slot[other]!;
      const joined =
        this.#rows.cost[k]! +
        COST.extraFinger +
        this.#costs.staying(state, event, before) +
        this.#strain.pair(this.#events, this.#rows.finger[k]!, finger);
      if (joined < cost) {
        from = k;
        cost = joined;
      }
    }
    const arrival = this.#costs.arrival(event, state);
    const freed = this.#freeCost[finger]! + this.#freedom.margin + arrival;
    if (freed < cost) {
      from = this.#freeRow[finger]!;
      cost = freed;
    }
    const place = this.#view.places[state]!;
    const sources = this.#sources;
    const nearest = arrival + sources.shift(place, place);
    const count = sources.under(cost, arrival);
    for (let n = 0; n < count; n++) {
      const reached = sources.costs[n]!;
      if (reached + nearest >= cost) continue;
      const pair = this.#strain.pair(this.#events, sources.fingers[n]!, finger);
      const moved = reached + arrival + sources.shift(sources.places[n]!, place) + pair;
      if (moved < cost) {
        from = sources.rows[n]!;
        cost = moved;
      }
    }
    const total = cost + emission;
    if (total > this.#lowest + BEAM) return;
    if (total < this.#lowest) this.#lowest = total;
    this.#rows.push(state, total, from, HELD, finger);
  }

  /** A key played again with the finger that is printed: the hand stays where it is. */
  #changeFinger(event: HandEvent, before: HandEvent, state: number, stayed: number): void {
    const manner = this.#rows.manner[stayed];
    const printed = event.printed[0];
    if (event.keys.length !== 1 || before.keys.length !== 1 || event.keys[0] !== before.keys[0]) return;
    if (!printed || (manner !== HELD && manner !== CHANGE)) return;
    this.#entered[state] = this.#events;
    const note = this.#costs.held(shapeOf(state)) + COST.fingerChange;
    this.#rows.push(state, this.#rows.cost[stayed]! + note, stayed, CHANGE, printed[0]!);
  }

  /** The free hand, with every finger on a single key; and for every finger the cheapest way from the free hand. */
  #enterFree(event: HandEvent, cheapest: number): void {
    const [single, printed] = [event.keys.length === 1, event.printed[0] ?? null];
    const notes = event.keys.length * this.#freedom.note * this.#strain.free(this.#events);
    for (let finger = 0; finger <= 5; finger++) {
      this.#freeRow[finger] = -1;
      this.#freeCost[finger] = Number.POSITIVE_INFINITY;
      for (const k of this.#free) this.#reachFree(k, finger);
      if (single ? finger === 0 || (printed !== null && !printed.includes(finger as Finger)) : finger > 0)
        continue;
      let [from, cost] = [this.#freeRow[finger]!, this.#freeCost[finger]!];
      for (let n = 0; n < this.#sources.count; n++) {
        const reached = this.#sources.costs[n]!;
        if (reached >= cost) continue;
        const joined = reached + this.#strain.pair(this.#events, this.#sources.fingers[n]!, finger);
        if (joined < cost) [from, cost] = [this.#sources.rows[n]!, joined];
      }
      if (cheapest < 0) cost = 0;
      this.#rows.push(FREE, cost + notes + this.#strain.own(this.#events, finger), from, AT_LARGE, finger);
    }
  }

  #reachFree(k: number, finger: number): void {
    const cost = this.#rows.cost[k]! + this.#strain.pair(this.#events, this.#rows.finger[k]!, finger);
    if (cost >= this.#freeCost[finger]!) return;
    this.#freeRow[finger] = k;
    this.#freeCost[finger] = cost;
  }

  /** Keeps the states of the event before that hold none of this event's keys. */
  #carryAll(event: HandEvent, before: HandEvent, start: number): void {
    const limit = this.#lowest + BEAM;
    for (let k = this.#previous; k < start; k++) {
      const state = this.#rows.state[k]!;
      if (state === FREE || this.#entered[state] === this.#events || this.#rows.cost[k]! > limit) continue;
      const base = this.#rows.cost[k]! + this.#costs.staying(state, event, before);
      const slide =
        this.#rows.manner[k] === HELD ? slideCost(event, before, this.#rows.finger[k] as Finger) : null;
      const outside = base + this.#costs.outside(event, state);
      const slid =
        slide === null ? Number.POSITIVE_INFINITY : base + slide + this.#costs.held(shapeOf(state));
      if (slid <= Math.min(outside, limit)) this.#rows.push(state, slid, k, SLIDE, this.#rows.finger[k]!);
      else if (outside <= limit) this.#rows.push(state, outside, k, OUTSIDE, 0);
    }
  }
}
