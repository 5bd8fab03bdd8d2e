/**
 * The steps of one hand's line: at every moment the grips that may take its keys, what each costs by itself, what joins
 * it to the one before, and what three in a row cost.
 */
import type { Finger } from "../take/index.ts";
import { type FingerCosts, oddsOf } from "./finger-costs.ts";
import { isRestruck } from "./finger-features.ts";
import { fingerSpan, reach } from "./finger-spans.ts";
import { type Grip, gripsOf, type Moment, momentOf, singleGrips } from "./grips.ts";
import type { HandEvent } from "./hand-event.ts";
import type { PathWeights, TogetherWeights } from "./line-weights.ts";
import type { OwnPoints } from "./own-points.ts";

const OCTAVE = 12;

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

/** A line of steps with what joins them. The numbers of all steps stand in one row, which costs less than a row each. */
export interface Joined {
  readonly steps: readonly Step[];
  /** Where the grips of each step begin in a row of the grips of all steps; and how many there are. */
  readonly gripsAt: Int32Array;
  /** The same for pairs of grips, p before it and c, at p * grips + c; of the first step its grips alone. */
  readonly pairsAt: Int32Array;
  /** What joins each pair of grips. */
  readonly links: Float64Array;
  /** How likely each pair of grips is by what joins it. */
  readonly linkOdds: Float64Array;
  /** How much a step is bound to the one before, 0 to 1. */
  readonly ties: Float64Array;
  /** How much three in a row are bound together that end with a step, 0 to 1. */
  readonly bounds: Float64Array;
}

/** Counts what joins the steps of a line. */
export function joinSteps(steps: readonly Step[], weights: PathWeights): Joined {
  const gripsAt = new Int32Array(steps.length + 1);
  const pairsAt = new Int32Array(steps.length + 1);
  const ties = new Float64Array(steps.length);
  const bounds = new Float64Array(steps.length);
  steps.forEach((step, i) => {
    const cs = step.grips.length;
    gripsAt[i + 1] = gripsAt[i]! + cs;
    pairsAt[i + 1] = pairsAt[i]! + cs * (i === 0 ? 1 : steps[i - 1]!.grips.length);
    ties[i] = tieOf(step.event, weights.together);
    if (i > 1 && !isRestruck(steps[i - 2]!.top, steps[i - 1]!.top, step.top)) {
      const octaves = isOctave(steps[i - 2]!) && isOctave(steps[i - 1]!) && isOctave(step);
      bounds[i] = Math.min(ties[i]!, ties[i - 1]!) * (octaves ? weights.together.octavesShare : 1);
    }
  });
  const links = new Float64Array(pairsAt[steps.length]!);
  const linkOdds = new Float64Array(links.length);
  for (let i = 1; i < steps.length; i++) {
    if (isPlain(steps[i - 1]!, steps[i]!))
      linkKeys(steps, i, ties[i]!, pairsAt[i]!, weights, links, linkOdds);
    else linkGrips(steps, i, pairsAt[i]!, weights, links, linkOdds);
  }
  return { steps, gripsAt, pairsAt, links, linkOdds, ties, bounds };
}

/** True for one key after another, with no slide between them. */
function isPlain(before: Step, step: Step): boolean {
  return before.moment.keys.length === 1 && step.moment.keys.length === 1 && step.event.slides[0] !== 0;
}

/** What `linkCost` says of single keys, read from the tables. */
function linkKeys(
  steps: readonly Step[],
  i: number,
  tie: number,
  at: number,
  { costs }: PathWeights,
  links: Float64Array,
  linkOdds: Float64Array,
): void {
  const [before, step] = [steps[i - 1]!, steps[i]!];
  const start = costs.pairStart(before.top, step.top);
  const again = before.top === step.top;
  let k = at;
  for (let p = 0; p < before.tops.length; p++) {
    const a = before.tops[p]!;
    for (let c = 0; c < step.tops.length; c++, k++) {
      const b = step.tops[c]!;
      if (tie === 1) {
        links[k] = costs.pairs[start + a * 6 + b]!;
        linkOdds[k] = costs.pairOdds[start + a * 6 + b]!;
      } else {
        const points = tie * costs.pairs[start + a * 6 + b]!;
        links[k] = again ? costs.pair(a, before.top, b, step.top, tie) : points;
        linkOdds[k] = oddsOf(links[k]!);
      }
    }
  }
}

function linkGrips(
  steps: readonly Step[],
  i: number,
  at: number,
  weights: PathWeights,
  links: Float64Array,
  linkOdds: Float64Array,
): void {
  const [before, step] = [steps[i - 1]!, steps[i]!];
  let k = at;
  for (let p = 0; p < before.grips.length; p++) {
    for (let c = 0; c < step.grips.length; c++, k++) {
      links[k] = linkCost(before, p, step, c, weights);
      linkOdds[k] = oddsOf(links[k]!);
    }
  }
}

/** Every moment of a line with the grips that it may be taken by. */
export function pathSteps(
  events: readonly HandEvent[],
  known: readonly (readonly (Finger | null)[])[],
  weights: PathWeights,
  { points }: OwnPoints,
): Step[] {
  return events.map((event, i): Step => {
    if (event.keys.length === 1 && event.held.length === 0)
      return singleStep(event, known[i]![0] ?? null, points, 6 * i);
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

const STRUCK_ALONE = [0];
const ALL_FINGERS: readonly Finger[] = [1, 2, 3, 4, 5];
const ONE_FINGER: readonly (readonly Finger[])[] = ALL_FINGERS.map((finger) => [finger]);

/** The step of a single key, with no other held. */
function singleStep(event: HandEvent, known: Finger | null, points: Float64Array, at: number): Step {
  const { keys } = event;
  return {
    event,
    moment: { keys, struck: STRUCK_ALONE },
    grips: singleGrips(known),
    own:
      known === null
        ? [points[at + 1]!, points[at + 2]!, points[at + 3]!, points[at + 4]!, points[at + 5]!]
        : [points[at + known]!],
    top: keys[0]!,
    tops: known === null ? ALL_FINGERS : ONE_FINGER[known - 1]!,
  };
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
  const share = shareOfOctaves(before, step, together);
  return cost * share + others(before, from, step, to, together, share);
}

/** Share of what joins two moments that is left where the hand strikes an octave, and where it goes from one to the next. */
function shareOfOctaves(before: Step, step: Step, { octaveShare, octavesShare }: TogetherWeights): number {
  if (step.top - step.event.keys[0]! < OCTAVE) return 1;
  return isOctave(before) && isOctave(step) ? octavesShare : octaveShare;
}

/** True where an octave is struck and no other key. */
function isOctave({ event: { keys, held } }: Step): boolean {
  return keys.length === 2 && held.length === 0 && keys[1]! - keys[0]! === OCTAVE;
}

/** What the fingers beside the top line do: they stay on held keys, and are free for others only when they let go. */
function others(
  before: Step,
  from: readonly (Finger | null)[],
  step: Step,
  to: readonly (Finger | null)[],
  weights: TogetherWeights,
  share: number,
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
  return moved * tieOf(step.event, weights) * share + held;
}
