/**
 * The fingers of one hand's whole line: dynamic programming over the grips of every moment, the last two of them kept in
 * mind, since three notes in a row have costs together. Keys that are still held keep their fingers, so that two voices
 * in one hand are fingered as one hand can play them. Time is linear in the number of events.
 */

import type { Finger } from "../take/index.ts";
import { expectedMet } from "./finger-odds.ts";
import { isPracticable } from "./finger-spans.ts";
import { type Joined, joinSteps, pathSteps, type Step, threeCost, tieOf } from "./finger-steps.ts";
import type { HandEvent } from "./hand-event.ts";
import { PATH_WEIGHTS, type PathWeights } from "./line-weights.ts";
import { type OwnPoints, ownPoints } from "./own-points.ts";

/**
 * Fingers for every key of every event, as the right hand sees them: those that are likeliest note by note, as far as
 * a hand can play them one after the other. `known` holds the fingers already given, one row an event; nulls are
 * filled. A row that no hand can hold stays as it is.
 */
export function fillFingers(
  events: readonly HandEvent[],
  known: readonly (readonly (Finger | null)[])[],
  weights: PathWeights = PATH_WEIGHTS,
  own: OwnPoints = ownPoints(events, weights.costs),
): (Finger | null)[][] {
  if (events.length === 0) return [];
  const line = joinSteps(pathSteps(events, known, weights, own), weights);
  const { backs, values } = searchBest(line, expectedMet(line, weights.costs), weights);
  return read(line.steps, backs, values, known);
}

/**
 * Notes met in expectation that a point is worth beside them: of a few that were tried by leaving each score out in
 * turn, a third of it and less meet as many or fewer.
 */
const POINT = 0.1;

/** Notes met in expectation that two fingers cost which no hand can play bound, one after the other. */
const UNPLAYABLE = 1;

/** The path on which most fingers are met in expectation, dear and unplayable steps set against them. */
function searchBest(
  { steps, links, bounds }: Joined,
  met: readonly Float64Array[],
  weights: PathWeights,
): { readonly backs: readonly Uint8Array[]; readonly values: Float64Array } {
  const backs: Uint8Array[] = [];
  let values = steps[0]!.own.map((own, c) => POINT * own - met[0]![c]!);
  for (let i = 1; i < steps.length; i++) {
    const [before, step] = [steps[i - 1]!, steps[i]!];
    const earlier = i > 1 ? steps[i - 2]! : null;
    const [ps, cs, es] = [before.grips.length, step.grips.length, earlier?.grips.length ?? 1];
    const next = new Float64Array(ps * cs);
    const back = new Uint8Array(ps * cs);
    const bound = POINT * bounds[i]!;
    for (let p = 0; p < ps; p++) {
      for (let c = 0; c < cs; c++) {
        let best = Number.POSITIVE_INFINITY;
        let from = 0;
        for (let e = 0; e < es; e++) {
          let cost = values[e * ps + p]!;
          if (cost >= best) continue;
          if (bound > 0) cost += bound * threeCost(weights.costs, earlier!, e, before, p, step, c);
          if (cost < best) [best, from] = [cost, e];
        }
        const k = p * cs + c;
        const points = step.own[c]! + links[i]![k]!;
        const broken = isBroken(before, p, step, c) ? UNPLAYABLE * tieOf(step.event, weights.together) : 0;
        next[k] = best + POINT * points + broken - met[i]![c]!;
        back[k] = from;
      }
    }
    backs.push(back);
    values = next;
  }
  return { backs, values };
}

/**
 * True where no hand can go bound from one finger of the top line to the next: one finger on two keys, or a leap. Where
 * keys are struck together before and after, the hand moves as a whole.
 */
function isBroken(before: Step, p: number, step: Step, c: number): boolean {
  const [a, b] = [before.tops[p], step.tops[c]];
  if (!a || !b || before.top === step.top) return false;
  if (before.event.keys.length > 1 && step.event.keys.length > 1) return false;
  if (step.event.slides[step.event.keys.length - 1] === before.event.keys.length - 1) return false;
  return a === b || !isPracticable(a, before.top, b, step.top);
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
