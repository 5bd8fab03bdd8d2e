/**
 * The steps of one hand's line: at every moment the grips that may take its keys, what each costs by itself, what joins
 * it to the one before, and what three in a row cost.
 */
import type { Finger } from "../take/index.ts";
import type { FingerCosts } from "./finger-costs.ts";
import { isRestruck } from "./finger-features.ts";
import { fingerSpan, reach } from "./finger-spans.ts";
import { type Grip, gripsOf, type Moment, momentOf } from "./grips.ts";
import type { HandEvent } from "./hand-event.ts";
import type { PathWeights, TogetherWeights } from "./line-weights.ts";
import type { OwnPoints } from "./own-points.ts";

const OCTAVE = 12;

export interface Step {
  readonly event: HandEvent;
  readonly moment: Moment;
  readonly grips: readonly Grip[];
  /** What each grip costs by itself. */
  readonly own: Float64Array;
  /** Key and fingers of the top line. */
  readonly top: number;
  readonly tops: readonly (Finger | null)[];
}

/** A line of steps with what joins them. */
export interface Joined {
  readonly steps: readonly Step[];
  /** For every step what joins grip p before it to grip c, at p * grips + c. */
  readonly links: readonly Float64Array[];
  /** How much three in a row are bound together that end with a step, 0 to 1. */
  readonly bounds: readonly number[];
}

const NO_LINKS = new Float64Array(0);

/** Counts what joins the steps of a line. */
export function joinSteps(steps: readonly Step[], weights: PathWeights): Joined {
  return {
    steps,
    links: steps.map((step, i) => (i === 0 ? NO_LINKS : linksOf(steps[i - 1]!, step, weights))),
    bounds: steps.map((_, i) => boundOf(steps, i, weights.together)),
  };
}

function linksOf(before: Step, step: Step, weights: PathWeights): Float64Array {
  const [ps, cs] = [before.grips.length, step.grips.length];
  const links = new Float64Array(ps * cs);
  for (let p = 0; p < ps; p++) {
    for (let c = 0; c < cs; c++) links[p * cs + c] = linkCost(before, p, step, c, weights);
  }
  return links;
}

function boundOf(steps: readonly Step[], i: number, together: TogetherWeights): number {
  if (i < 2) return 0;
  const [earlier, before, step] = [steps[i - 2]!, steps[i - 1]!, steps[i]!];
  if (isRestruck(earlier.top, before.top, step.top)) return 0;
  return Math.min(tieOf(step.event, together), tieOf(before.event, together));
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
    const own = Float64Array.from(grips, ({ fingers, cost }) => {
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

/** What three grips in a row cost, of their top fingers. */
export function threeCost(
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

/** What joins two grips in a row: the top line by the rules of one note after the other, and what all other fingers do. */
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
