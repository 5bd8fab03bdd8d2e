/** The columns of the search of `placement-viterbi.ts`, event by event: what may be entered, from where, and at what cost. */
import type { Finger } from "../take/index.ts";
import { PLACEMENT_COSTS as COST, FREEDOM, type Freedom } from "./costs.ts";
import { EventCosts, FINGERS } from "./event-costs.ts";
import { FreeWays } from "./free-ways.ts";
import type { HandEvent } from "./hand-event.ts";
import { type ShapeFingers, shapeFingers } from "./shape-fingers.ts";
import type { ShapeStates } from "./shape-states.ts";
import { DUST, SHIFT_SPREAD, ShiftSources } from "./shift-sources.ts";
import { FINGER_STEPS, type StepCosts } from "./step-costs.ts";
import type { Strain } from "./strain.ts";
import {
  AT_LARGE,
  CHANGE,
  FREE,
  HELD,
  OUTSIDE,
  type Path,
  SLIDE,
  type ViterbiColumns,
} from "./viterbi-columns.ts";

/**
 * States dearer than the best by more than this are dropped: a shift from the best to where they stand costs less,
 * but for places that are not idiomatic; among those only what is nearly the best is kept.
 */
const BEAM = Math.max(COST.shift.base, FREEDOM.offered.margin) + SHIFT_SPREAD;

export class Trellis {
  readonly #costs: StepCosts;
  readonly #strain: Strain;
  readonly #freedom: Freedom;
  readonly #view: ShapeStates;
  readonly #fingers: ShapeFingers;
  readonly #rows: ViterbiColumns;
  #events = 0;
  /** Cost of the cheapest state of the event that is being entered, but for those that are carried along. */
  #lowest = 0;
  /** Cost of the cheapest row of the event that is being entered, and of the event before. */
  #best = Number.POSITIVE_INFINITY;
  #bestBefore = Number.POSITIVE_INFINITY;
  /** First row of the event before, and after its rows of the free hand. */
  #previous = 0;
  #placed = 0;
  /** For every finger the least that playing the event with it costs by a shift, or from the free hand, but for its place. */
  readonly #leastInto = new Float64Array(FINGERS);
  /** What any state of the event that is come from costs at least, from the start of the line. */
  #floor = 0;
  /** For every state its place in the columns at the event before, where `#stamp` holds that event's number. */
  readonly #slot: Int32Array;
  readonly #stamp: Int32Array;
  /** The event at which a state was last entered. */
  readonly #entered: Int32Array;
  /** Placements of the event before from which a shift can pay. */
  readonly #sources = new ShiftSources();
  /** The ways from the free hand of the event before. */
  readonly #free = new FreeWays();
  /** What the event costs with each of the searched fingers on a key: read where a state is entered, or last asked about. */
  readonly #emissions: Float64Array;
  readonly #event: EventCosts;

  constructor(
    costs: StepCosts,
    strain: Strain,
    freedom: Freedom,
    shapes: readonly number[],
    rows: ViterbiColumns,
  ) {
    this.#rows = rows;
    this.#costs = costs;
    this.#strain = strain;
    this.#freedom = freedom;
    this.#view = costs.view;
    this.#fingers = shapeFingers(costs.view, costs, shapes);
    this.#emissions = new Float64Array(this.#fingers.count);
    this.#slot = new Int32Array(this.#view.states);
    this.#stamp = new Int32Array(this.#view.states).fill(-1);
    this.#entered = new Int32Array(this.#view.states).fill(-1);
    this.#event = new EventCosts(costs, strain);
  }

  add(event: HandEvent, before: HandEvent | null): void {
    const rows = this.#rows;
    const start = rows.count;
    rows.reserve(start - this.#previous + FINGERS + this.#fingers.count * event.keys.length);
    this.#bestBefore = this.#best;
    this.#best = Number.POSITIVE_INFINITY;
    this.#event.read(event, before, this.#events);
    this.#sources.begin(event.ease);
    this.#gatherSources(start);
    this.#enterFree(event, before);
    const placed = rows.count;
    this.#enterAll(event, before);
    if (before !== null) this.#carryAll(event, start);
    for (let k = placed; k < rows.count; k++) {
      const state = rows.state[k]!;
      this.#slot[state] = k;
      this.#stamp[state] = this.#events;
    }
    this.#previous = start;
    this.#placed = placed;
    this.#events++;
  }

  best(): Path {
    return this.#rows.pathTo(this.#rows.cheapest(this.#previous, this.#rows.count));
  }

  #gatherSources(to: number): void {
    const bound = this.#bestBefore + SHIFT_SPREAD;
    this.#sources.gather(this.#rows, this.#placed, to, bound, this.#view.places);
    this.#sources.reach(this.#strain.pairs, 36 * this.#events);
  }

  /** Enters all states that hold a key of the event: first those in which the hand may stay. */
  #enterAll(event: HandEvent, before: HandEvent | null): void {
    const { leastTo, least } = this.#sources;
    for (let finger = 0; finger < FINGERS; finger++) {
      const freed = this.#free.costs[finger]! + this.#freedom.margin;
      this.#leastInto[finger] = Math.min(freed, leastTo[finger]! + least) - DUST;
    }
    this.#floor = before === null ? 0 : this.#bestBefore + this.#strain.leastPair(this.#events) - DUST;
    if (event.keys.length === 1 && event.printed[0] === null && before !== null) {
      this.#enterPlain(event.keys[0]!);
      return;
    }
    if (before !== null) this.#enterHolding(event, before, true);
    this.#enterHolding(event, before, false);
  }

  /** A single key, its finger not printed: from where the hand stood, then from elsewhere. */
  #enterPlain(key: number): void {
    const { count, states, fingers, held } = this.#fingers;
    const now = this.#events;
    for (let c = 0; c < count; c++) {
      this.#emissions[c] = held[c]! + this.#event.lying[fingers[c]!]!;
      const state = states[c]! + key;
      if (this.#stamp[state] === now - 1 && this.#entered[state] !== now) {
        this.#enter(state, c, fingers[c]!, this.#slot[state]!);
      }
    }
    for (let c = 0; c < count; c++) {
      const state = states[c]! + key;
      if (this.#stamp[state] === now - 1 || this.#entered[state] === now) continue;
      if (!this.#isHopeless(state, c, fingers[c]!)) this.#enter(state, c, fingers[c]!, -1);
    }
  }

  #enterHolding(event: HandEvent, before: HandEvent | null, staying: boolean): void {
    const { states, starts } = this.#fingers;
    for (let s = 0; s + 1 < starts.length; s++) {
      for (const key of event.keys) {
        for (let c = starts[s]!; c < starts[s + 1]!; c++) {
          const state = states[c]! + key;
          if (this.#entered[state] === this.#events) continue;
          const stood = this.#stamp[state] === this.#events - 1;
          if (staying !== stood && before !== null) continue;
          const played = this.#costs.emission(event, state);
          if (played === null) {
            if (before !== null && stood) this.#changeFinger(event, before, state, this.#slot[state]!);
            continue;
          }
          const finger = this.#costs.topFinger(event, state);
          this.#emissions[c] = played + this.#event.lying[finger]!;
          if (before === null) this.#begin(state, this.#emissions[c]!, finger);
          else if (staying) this.#enter(state, c, finger, this.#slot[state]!);
          else if (!this.#isHopeless(state, c, finger)) this.#enter(state, c, finger, -1);
        }
      }
    }
  }

  /** True where even the cheapest way into a state, by a shift or a finger more or less, costs too much. */
  #isHopeless(state: number, c: number, finger: number): boolean {
    const bound = this.#lowest + BEAM - this.#emissions[c]!;
    const related = this.#view.relativeSteps[this.#view.shapes[state]!]!.length > 0;
    if (related && this.#floor + COST.extraFinger <= bound) return false;
    return this.#leastInto[finger]! + this.#event.arrivals[this.#view.anchorClasses[state]!]! > bound;
  }

  #begin(state: number, emission: number, finger: number): void {
    this.#entered[state] = this.#events;
    const arrival = this.#event.arrivals[this.#view.anchorClasses[state]!]!;
    this.#push(state, this.#freedom.margin + emission + arrival, -1, HELD, finger);
  }

  /**
   * The cheapest way into a state that holds a key: by staying, with the little finger added or left out, from the free
   * hand, or by a shift.
   *
   * @param c index of the searched finger whose `#emissions` hold
   * @param stayed the state's row at the event before, or -1
   */
  #enter(state: number, c: number, finger: number, stayed: number): void {
    this.#entered[state] = this.#events;
    const { cost: costs, finger: fingers } = this.#rows;
    const { pairs } = this.#strain;
    const { anchorClasses, places, shapes, relativeSteps } = this.#view;
    const base = 36 * this.#events;
    const anchorClass = anchorClasses[state]!;
    const staying = this.#event.stayings[anchorClass]!;
    let from = -1;
    let cost = Number.POSITIVE_INFINITY;
    if (stayed >= 0) {
      const step = 6 * fingers[stayed]! + finger;
      from = stayed;
      cost = costs[stayed]! + staying + FINGER_STEPS[step]! + pairs[base + step]!;
    }
    const steps = relativeSteps[shapes[state]!]!;
    for (let n = 0; n < steps.length; n++) {
      const other = state + steps[n]!;
      if (this.#stamp[other] !== this.#events - 1) continue;
      const k = this.#slot[other]!;
      const joined = costs[k]! + COST.extraFinger + staying + pairs[base + 6 * fingers[k]! + finger]!;
      if (joined >= cost) continue;
      from = k;
      cost = joined;
    }
    const { asked } = this.#sources;
    asked.arrival[0] = this.#event.arrivals[anchorClass]!;
    const freed = this.#free.costs[finger]! + this.#freedom.margin + asked.arrival[0];
    if (freed < cost) {
      from = this.#free.rows[finger]!;
      cost = freed;
    }
    asked.cost[0] = cost;
    const row = this.#sources.cheapestTo(places[state]!, finger, pairs, base);
    const total = asked.cost[0] + this.#emissions[c]!;
    if (total > this.#lowest + BEAM) return;
    if (total < this.#lowest) this.#lowest = total;
    this.#push(state, total, row >= 0 ? row : from, HELD, finger);
  }

  #push(state: number, cost: number, from: number, manner: number, finger: number): void {
    if (cost < this.#best) this.#best = cost;
    this.#rows.push(state, cost, from, manner, finger);
  }

  /** A key played again with the finger that is printed: the hand stays where it is. */
  #changeFinger(event: HandEvent, before: HandEvent, state: number, stayed: number): void {
    const manner = this.#rows.manner[stayed];
    const printed = event.printed[0];
    if (event.keys.length !== 1 || before.keys.length !== 1 || event.keys[0] !== before.keys[0]) return;
    if (!printed || (manner !== HELD && manner !== CHANGE)) return;
    this.#entered[state] = this.#events;
    const note = this.#costs.held(this.#view.shapes[state]!) + COST.fingerChange;
    this.#push(state, this.#rows.cost[stayed]! + note, stayed, CHANGE, printed[0]!);
  }

  /** The free hand, with every finger on a single key. */
  #enterFree(event: HandEvent, before: HandEvent | null): void {
    const [single, printed] = [event.keys.length === 1, event.printed[0] ?? null];
    const notes = event.keys.length * this.#freedom.note * this.#strain.free(this.#events);
    const { leastTo, rowTo } = this.#sources;
    this.#free.read(this.#rows, this.#previous, this.#placed, this.#strain.pairs, 36 * this.#events);
    for (let finger = 0; finger < FINGERS; finger++) {
      let [from, cost] = [this.#free.rows[finger]!, this.#free.costs[finger]!];
      if (single ? finger === 0 || (printed !== null && !printed.includes(finger as Finger)) : finger > 0)
        continue;
      if (leastTo[finger]! < cost) [from, cost] = [rowTo[finger]!, leastTo[finger]!];
      if (before === null) cost = 0;
      this.#push(FREE, cost + notes + this.#strain.own(this.#events, finger), from, AT_LARGE, finger);
    }
    this.#lowest = this.#best;
  }

  /** Keeps the states of the event before that hold none of this event's keys. */
  #carryAll(event: HandEvent, start: number): void {
    const limit = this.#lowest + BEAM;
    const least = COST.outside * event.keys.length;
    const { cost, state: states, manner, finger } = this.#rows;
    for (let k = this.#placed; k < start; k++) {
      const state = states[k]!;
      if (this.#entered[state] === this.#events || cost[k]! > limit) continue;
      const base = cost[k]! + this.#event.stayings[this.#view.anchorClasses[state]!]!;
      const slide = manner[k] === HELD ? this.#event.slides[finger[k]!]! : Number.POSITIVE_INFINITY;
      const slid = base + slide + this.#costs.held(this.#view.shapes[state]!);
      if (Math.min(slid, base + least) > limit) continue;
      const outside = base + this.#costs.outside(event, state);
      if (slid <= Math.min(outside, limit)) this.#push(state, slid, k, SLIDE, finger[k]!);
      else if (outside <= limit) this.#push(state, outside, k, OUTSIDE, 0);
    }
  }
}
