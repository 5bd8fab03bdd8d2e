/**
 * The cheapest fingers of one hand's whole line: dynamic programming over the grips of every moment, the last two of
 * them kept in mind, since three notes in a row have costs together. Keys that are still held keep their fingers, so
 * that two voices in one hand are fingered as one hand can play them. Time is linear in the number of events.
 */

import type { Finger } from "../take/index.ts";
import type { FingerCosts } from "./finger-costs.ts";
import { isRestruck } from "./finger-features.ts";
import { fingerSpan, reach } from "./finger-spans.ts";
import { type Grip, gripsOf, type Moment, momentOf } from "./grips.ts";
import type { HandEvent } from "./hand-event.ts";
import { PATH_WEIGHTS, type PathWeights, type TogetherWeights } from "./line-weights.ts";
import { type OwnPoints, ownPoints } from "./own-points.ts";

const OCTAVE = 12;

/**
 * Fingers for every key of every event, as the right hand sees them. `known` holds the fingers already given, one
 * row an event; nulls are filled. A row that no hand can hold stays as it is.
 */
export function fillFingers(
  events: readonly HandEvent[],
  known: readonly (readonly (Finger | null)[])[],
  weights: PathWeights = PATH_WEIGHTS,
  own: OwnPoints = ownPoints(events, weights.costs),
): (Finger | null)[][] {
  if (events.length === 0) return [];
  const steps = pathSteps(events, known, weights, own);
  const backs: Uint8Array[] = [];
  let values: Float64Array = Float64Array.from(steps[0]!.own);
  for (let i = 1; i < steps.length; i++) {
    const [before, step] = [steps[i - 1]!, steps[i]!];
    const earlier = i > 1 ? steps[i - 2]! : null;
    const [ps, cs, es] = [before.grips.length, step.grips.length, earlier?.grips.length ?? 1];
    const next = new Float64Array(ps * cs);
    const back = new Uint8Array(ps * cs);
    const tie = Math.min(tieOf(step.event, weights.together), tieOf(before.event, weights.together));
    const bound = earlier !== null && tie > 0 && !isRestruck(earlier.top, before.top, step.top);
    for (let p = 0; p < ps; p++) {
      for (let c = 0; c < cs; c++) {
        let best = Number.POSITIVE_INFINITY;
        let from = 0;
        for (let e = 0; e < es; e++) {
          let cost = values[e * ps + p]!;
          if (cost >= best) continue;
          if (bound) cost += tie * three(weights.costs, earlier, e, before, p, step, c);
          if (cost < best) [best, from] = [cost, e];
        }
        next[p * cs + c] = best + step.own[c]! + linkCost(before, p, step, c, weights);
        back[p * cs + c] = from;
      }
    }
    backs.push(back);
    values = next;
  }
  return read(steps, backs, values, known);
}

export interface Step {
  readonly event: HandEvent;
  readonly moment: Moment;
  readonly grips: readonly Grip[];
  /** What each grip costs by itself. */
  readonly own: readonly number[];
  /** Key and fingers of the top line. */
  readonly top: number;
  readonly tops: readonly (Finger | null)[];
}

/** Every moment of a line with the grips that it may be taken by. */
export function pathSteps(
  events: readonly HandEvent[],
  known: readonly (readonly (Finger | null)[])[],
  weights: PathWeights,
  { points }: OwnPoints,
): Step[] {
  return events.map((event, i): Step => {
    let moment = momentOf(event);
    let grips = gripsOf(moment, knownIn(moment, known[i]!), weights);
    if (moment.keys.length > event.keys.length && grips[0]!.fingers.includes(null)) {
      // What is held cannot be held beside what is struck: it is let go.
      moment = momentOf({ ...event, held: [] });
      grips = gripsOf(moment, knownIn(moment, known[i]!), weights);
    }
    const top = event.keys[event.keys.length - 1]!;
    const at = moment.struck.indexOf(event.keys.length - 1);
    const own = grips.map(({ fingers, cost }) => {
      const finger = fingers[at];
      // Among keys struck together the outer fingers lie on black keys as well as on white ones.
      return finger === null || finger === undefined ? cost : cost + points[6 * i + finger]!;
    });
    return { event, moment, grips, own, top, tops: grips.map(({ fingers }) => fingers[at] ?? null) };
  });
}

function knownIn(moment: Moment, known: readonly (Finger | null)[]): (Finger | null)[] {
  return moment.struck.map((n) => (n < 0 ? null : (known[n] ?? null)));
}

function three(
  costs: FingerCosts,
  earlier: Step,
  e: number,
  before: Step,
  p: number,
  step: Step,
  c: number,
): number {
  const [a, b, last] = [earlier.tops[e], before.tops[p], step.tops[c]];
  if (!a || !b || !last) return 0;
  return costs.triple(a, earlier.top, b, last, step.top);
}

/** How much of what joins two events counts, by the time that the hand has between them: 0 to 1. */
export function tieOf(event: HandEvent, { apart }: TogetherWeights): number {
  return Math.max(apart, 1 - event.ease);
}

/** What joins two grips: the top line by the rules of one note after the other, and what all other fingers do. */
/** What joins two grips in a row. */
export function linkCost(before: Step, p: number, step: Step, c: number, weights: PathWeights): number {
  const [from, to] = [before.grips[p]!.fingers, step.grips[c]!.fingers];
  const { together, costs } = weights;
  const [a, b] = [before.tops[p], step.tops[c]];
  const single = from.length === 1 && to.length === 1;
  const tie = tieOf(step.event, together);
  let cost = 0;
  if (a && b) {
    const slid = step.event.slides[step.event.keys.length - 1] === before.event.keys.length - 1;
    if (slid) cost = a === b ? together.slideKept : together.slideLost;
    else cost = (single ? 1 : together.top) * costs.pair(a, before.top, b, step.top, tie);
  }
  if (single) return cost;
  const wide = step.top - step.event.keys[0]! >= OCTAVE;
  return cost * (wide ? together.octaveShare : 1) + others(before, from, step, to, together, wide);
}

/** What the fingers beside the top line do: they stay on held keys, and are free for others only when they let go. */
function others(
  before: Step,
  from: readonly (Finger | null)[],
  step: Step,
  to: readonly (Finger | null)[],
  weights: TogetherWeights,
  wide: boolean,
): number {
  let moved = 0;
  let held = 0;
  for (let n = 0; n < to.length; n++) {
    const finger = to[n];
    if (!finger) continue;
    const key = step.moment.keys[n]!;
    const again = before.moment.keys.indexOf(key);
    const stays = step.moment.struck[n]! < 0;
    if (again >= 0 && from[again] !== finger) {
      if (stays) held += weights.substitution;
      else moved += weights.changesFinger;
    }
    const topNow = step.moment.struck[n] === step.event.keys.length - 1;
    for (let m = 0; m < from.length; m++) {
      const left = from[m];
      if (!left) continue;
      const leftKey = before.moment.keys[m]!;
      const topBefore = before.moment.struck[m] === before.event.keys.length - 1;
      if (topNow && topBefore) continue;
      if (left === finger) {
        if (leftKey === key) continue;
        const slid = step.event.slides[step.moment.struck[n]!] === before.moment.struck[m];
        moved += slid && !stays ? weights.slideKept : weights.leavesKey;
      } else if (reach(left, leftKey, finger, key) < fingerSpan(left, finger).minPrac) {
        moved += weights.crosses;
      }
    }
    const source = stays ? undefined : step.event.slides[step.moment.struck[n]!];
    if (source !== undefined && source >= 0 && !topNow) {
      const at = before.moment.struck.indexOf(source);
      if (at >= 0 && from[at] !== finger) moved += weights.slideLost;
    }
  }
  return moved * tieOf(step.event, weights) * (wide ? weights.octaveShare : 1) + held;
}

function read(
  steps: readonly Step[],
  backs: readonly Uint8Array[],
  values: Float64Array,
  known: readonly (readonly (Finger | null)[])[],
): (Finger | null)[][] {
  let at = 0;
  for (let k = 1; k < values.length; k++) if (values[k]! < values[at]!) at = k;
  const filled = known.map((row) => [...row]);
  const last = steps.length - 1;
  let c = last === 0 ? at : at % steps[last]!.grips.length;
  let p = last === 0 ? 0 : Math.floor(at / steps[last]!.grips.length);
  for (let i = last; i >= 0; i--) {
    const { moment, grips } = steps[i]!;
    moment.struck.forEach((n, k) => {
      if (n >= 0) filled[i]![n] ??= grips[c]!.fingers[k] ?? null;
    });
    if (i === 0) break;
    const e = i > 1 ? backs[i - 1]![p * grips.length + c]! : 0;
    [c, p] = [p, e];
  }
  return filled;
}
