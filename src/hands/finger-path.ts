/**
 * The fingers of one hand's whole line: dynamic programming over the grips of every moment, the last two of them kept in
 * mind, since three notes in a row have costs together. Keys that are still held keep their fingers, so that two voices
 * in one hand are fingered as one hand can play them. Time is linear in the number of events.
 */

import type { Finger } from "../take/index.ts";
import { expectedMet } from "./finger-odds.ts";
import { isPracticable } from "./finger-spans.ts";
import { type Joined, joinSteps, pathSteps, type Step } from "./finger-steps.ts";
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
  return read(line, backs, values, known);
}

/**
 * Notes met in expectation that a point is worth beside them. Below .09 arpeggios turn otherwise than either handbook has
 * them (tests/outside/finger-five-keys.test.ts); from .2 on fingers follow each other that no hand can play
 * (tests/hands/finger-odds.test.ts). Printed fingers of scores held out in turn are met alike from 0 to .5, 67.9 to 68.4
 * in a hundred, and less often beyond.
 */
const POINT = 0.1;

/** Notes met in expectation that two fingers cost which no hand can play bound, one after the other. */
const UNPLAYABLE = 1;

/** The path on which most fingers are met in expectation, dear and unplayable steps set against them. */
function searchBest(
  { steps, gripsAt, pairsAt, links, ties, bounds }: Joined,
  met: Float64Array,
  { costs }: PathWeights,
): { readonly backs: Uint8Array; readonly values: Float64Array } {
  const backs = new Uint8Array(links.length);
  const { triples } = costs;
  let values = Float64Array.from(steps[0]!.own, (own, c) => POINT * own - met[c]!);
  for (let i = 1; i < steps.length; i++) {
    const [before, step] = [steps[i - 1]!, steps[i]!];
    const [ps, cs] = [before.grips.length, step.grips.length];
    const es = values.length / ps;
    const earlier = i > 1 ? steps[i - 2]!.tops : NONE;
    const next = new Float64Array(ps * cs);
    const bound = POINT * bounds[i]!;
    const three = i > 1 ? costs.tripleStart(steps[i - 2]!.top, step.top) : 0;
    const broken = isSpared(before, step) ? -1 : brokenStart(before.top, step.top);
    for (let p = 0; p < ps; p++) {
      const b = before.tops[p] ?? 0;
      for (let c = 0; c < cs; c++) {
        const last = step.tops[c] ?? 0;
        const row = three + 6 * b + last;
        let best = Number.POSITIVE_INFINITY;
        let from = 0;
        for (let e = 0; e < es; e++) {
          let cost = values[e * ps + p]!;
          if (cost >= best) continue;
          if (bound > 0) cost += bound * triples[row + 36 * (earlier[e] ?? 0)]!;
          if (cost >= best) continue;
          best = cost;
          from = e;
        }
        const k = p * cs + c;
        const at = pairsAt[i]! + k;
        const points = step.own[c]! + links[at]!;
        const unplayable = broken >= 0 && BROKEN[broken + 6 * b + last] === 1 ? UNPLAYABLE * ties[i]! : 0;
        next[k] = best + POINT * points + unplayable - met[gripsAt[i]! + c]!;
        backs[at] = from;
      }
    }
    values = next;
  }
  return { backs, values };
}

const NONE: readonly null[] = [null];

/** True where the hand moves as a whole, between keys struck together, or where one key is struck again or slid off. */
function isSpared(before: Step, step: Step): boolean {
  if (before.top === step.top) return true;
  if (before.event.keys.length > 1 && step.event.keys.length > 1) return true;
  return step.event.slides[step.event.keys.length - 1] === before.event.keys.length - 1;
}

/** Semitones beyond which no hand goes bound from one finger to another. */
const FAR = 24;

/**
 * 1 where no hand can go bound from finger a of the top line to finger b, one finger on two keys or a leap, at
 * `brokenStart` + 6 a + b; finger 0 is none.
 */
const BROKEN = brokenTable();

function brokenStart(from: number, to: number): number {
  return 36 * (Math.max(-FAR, Math.min(FAR, to - from)) + FAR);
}

function brokenTable(): Uint8Array {
  const table = new Uint8Array(36 * (2 * FAR + 1));
  for (let semitones = -FAR; semitones <= FAR; semitones++) {
    for (let a = 1 as Finger; a <= 5; a++) {
      for (let b = 1 as Finger; b <= 5; b++) {
        const broken = a === b || !isPracticable(a, 0, b, semitones);
        table[brokenStart(0, semitones) + 6 * a + b] = broken ? 1 : 0;
      }
    }
  }
  return table;
}

function read(
  { steps, pairsAt }: Joined,
  backs: Uint8Array,
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
    const { fingers } = grips[c]!;
    for (let k = 0; k < fingers.length; k++) {
      const n = moment.struck[k]!;
      if (n >= 0) filled[i]![n] ??= fingers[k] ?? null;
    }
    if (i === 0) break;
    const e = i > 1 ? backs[pairsAt[i]! + p * grips.length + c]! : 0;
    [c, p] = [p, e];
  }
  return filled;
}
