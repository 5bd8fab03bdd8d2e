/**
 * How likely every finger is on every key: the sum over all fingerings of a line, each as likely as its points make it,
 * forward and backward over pairs of grips. [lit: Lafferty, McCallum and Pereira 2001, for such fields; taking the
 * likeliest of each place in place of the likeliest whole is common practice where places are counted]
 */

import type { Finger } from "../take/index.ts";
import { type FingerCosts, oddsOf } from "./finger-costs.ts";
import type { Joined, Step } from "./finger-steps.ts";

/**
 * For every grip of every step, in the row that `gripsAt` divides, how many of the step's struck keys have their likeliest
 * finger with it, in expectation.
 */
export function expectedMet(line: Joined, costs: FingerCosts): Float64Array {
  const { steps, gripsAt, pairsAt } = line;
  const { shares, joins } = goForward(line, costs);
  const met = new Float64Array(gripsAt[steps.length]!);
  const odds = new ThreeOdds(line, costs);
  const likely = new Float64Array(most(gripsAt));
  // What comes after the pairs of one step, and of the step before, in turn: made once, since there are many steps.
  let after = new Float64Array(most(pairsAt)).fill(1);
  let before = new Float64Array(after.length);
  for (let i = steps.length - 1; i >= 0; i--) {
    findLikely(line, i, shares, after, likely);
    metBy(steps[i]!, likely, met, gripsAt[i]!);
    if (i === 0) break;
    goBack(line, i, joins, after, odds, before);
    [before, after] = [after, before];
  }
  return met;
}

/** The longest stretch between two places in a row and the next. */
function most(places: Int32Array): number {
  let longest = 0;
  for (let i = 1; i < places.length; i++) longest = Math.max(longest, places[i]! - places[i - 1]!);
  return longest;
}

/** How likely each grip of step i is, all that comes before and after it counted; into `likely`. */
function findLikely(
  { steps, pairsAt }: Joined,
  i: number,
  shares: Float64Array,
  after: Float64Array,
  likely: Float64Array,
): void {
  const cs = steps[i]!.grips.length;
  const start = pairsAt[i]!;
  const pairs = pairsAt[i + 1]! - start;
  likely.fill(0, 0, cs);
  for (let k = 0; k < pairs; ) {
    for (let c = 0; c < cs; c++, k++) likely[c]! += shares[start + k]! * after[k]!;
  }
  scale(likely, 0, cs);
}

interface Forward {
  /** For every step the shares of its pairs of grips, all that comes before them counted; of its grips at the first. */
  readonly shares: Float64Array;
  /** Odds of each pair of grips by what joins them and by the later grip. */
  readonly joins: Float64Array;
}

function goForward(line: Joined, costs: FingerCosts): Forward {
  const { steps, pairsAt, linkOdds } = line;
  const shares = new Float64Array(linkOdds.length);
  const joins = new Float64Array(linkOdds.length);
  const odds = new ThreeOdds(line, costs);
  const own = new Float64Array(most(line.gripsAt));
  for (let i = 0; i < steps.length; i++) {
    const cs = steps[i]!.own.length;
    for (let c = 0; c < cs; c++) own[c] = oddsOf(steps[i]!.own[c]!);
    const [start, end] = [pairsAt[i]!, pairsAt[i + 1]!];
    for (let k = start; k < end; ) {
      for (let c = 0; c < cs; c++, k++) joins[k] = i === 0 ? own[c]! : own[c]! * linkOdds[k]!;
    }
    if (i === 0) shares.set(joins.subarray(start, end), start);
    else reachAt(line, i, joins, shares, odds);
    scale(shares, start, end);
  }
  return { shares, joins };
}

/** Shares of the pairs of grips of step i, from those of the step before. */
function reachAt(line: Joined, i: number, joins: Float64Array, shares: Float64Array, odds: ThreeOdds): void {
  const { pairsAt, steps } = line;
  const [ps, cs] = [steps[i - 1]!.grips.length, steps[i]!.grips.length];
  const [before, now] = [pairsAt[i - 1]!, pairsAt[i]!];
  const es = (now - before) / ps;
  odds.begin(i);
  const { table, rows, earlier } = odds;
  for (let p = 0; p < ps; p++) {
    for (let c = 0; c < cs; c++) {
      const k = p * cs + c;
      const row = rows[k]!;
      let reached = 0;
      for (let e = 0; e < es; e++) {
        reached += shares[before + e * ps + p]! * table[row + earlier[e]!]!;
      }
      shares[now + k] = joins[now + k]! * reached;
    }
  }
}

/** What comes after the pairs of grips of step i - 1, from what comes after those of step i; into `before`. */
function goBack(
  line: Joined,
  i: number,
  joins: Float64Array,
  after: Float64Array,
  odds: ThreeOdds,
  before: Float64Array,
): void {
  const { steps, pairsAt } = line;
  const [ps, cs] = [steps[i - 1]!.grips.length, steps[i]!.grips.length];
  const start = pairsAt[i]!;
  const es = (start - pairsAt[i - 1]!) / ps;
  odds.begin(i);
  const { table, rows, earlier } = odds;
  before.fill(0, 0, es * ps);
  for (let p = 0; p < ps; p++) {
    for (let c = 0; c < cs; c++) {
      const k = p * cs + c;
      const onward = joins[start + k]! * after[k]!;
      const row = rows[k]!;
      for (let e = 0; e < es; e++) {
        before[e * ps + p]! += onward * table[row + earlier[e]!]!;
      }
    }
  }
  scale(before, 0, es * ps);
}

const CERTAIN = new Float64Array(216).fill(1);

/** How likely grips e, p and c of three steps in a row are by what three notes cost: read once for all grips of a step. */
class ThreeOdds {
  readonly #line: Joined;
  readonly #costs: FingerCosts;
  readonly #bound = new Float64Array(216).fill(1);
  /** The odds stand at the row of the pair p * grips + c, and so much farther for grip e. */
  table: Float64Array = CERTAIN;
  rows = new Int32Array(25);
  earlier = new Int32Array(5);

  constructor(line: Joined, costs: FingerCosts) {
    this.#line = line;
    this.#costs = costs;
  }

  /** Reads what is needed of step i, which is not the first. */
  begin(i: number): void {
    const { steps, bounds } = this.#line;
    const [before, step] = [steps[i - 1]!, steps[i]!];
    const bound = bounds[i]!;
    let start = 0;
    if (bound === 0) this.table = CERTAIN;
    else {
      start = this.#costs.tripleStart(steps[i - 2]!.top, step.top);
      this.table = bound === 1 ? this.#costs.tripleOdds : this.#bound;
      if (bound !== 1) {
        this.#fillBound(steps[i - 2]!, before, bound, start);
        start = 0;
      }
    }
    const pairs = before.tops.length * step.tops.length;
    if (pairs > this.rows.length) this.rows = new Int32Array(pairs);
    let k = 0;
    for (const b of before.tops) for (const c of step.tops) this.rows[k++] = start + 6 * (b ?? 0) + (c ?? 0);
    const tops = i > 1 ? steps[i - 2]!.tops : NONE;
    if (tops.length > this.earlier.length) this.earlier = new Int32Array(tops.length);
    for (let e = 0; e < tops.length; e++) this.earlier[e] = 36 * (tops[e] ?? 0);
  }

  #fillBound(earlier: Step, before: Step, bound: number, start: number): void {
    const { triples } = this.#costs;
    for (let a = 1 as Finger; a <= 5; a++) {
      if (!earlier.tops.includes(a)) continue;
      for (let b = 1 as Finger; b <= 5; b++) {
        if (!before.tops.includes(b)) continue;
        for (let c = 1; c <= 5; c++) {
          const k = 36 * a + 6 * b + c;
          this.#bound[k] = oddsOf(bound * triples[start + k]!);
        }
      }
    }
  }
}

const NONE: readonly null[] = [null];

/** Sums, over the struck keys, how likely the finger is that a grip has there; into `met` from `at` on. */
function metBy({ moment, grips }: Step, likely: Float64Array, met: Float64Array, at: number): void {
  if (moment.struck.length === 1) {
    for (let c = 0; c < grips.length; c++) met[at + c] = likely[c]!;
    return;
  }
  moment.struck.forEach((n, k) => {
    if (n < 0) return;
    const fingers = new Float64Array(6);
    grips.forEach((grip, c) => {
      fingers[grip.fingers[k] ?? 0]! += likely[c]!;
    });
    grips.forEach((grip, c) => {
      met[at + c]! += fingers[grip.fingers[k] ?? 0]!;
    });
  });
}

/** Makes shares sum to 1; equal ones where known fingers are so far from likely that nothing is left. */
function scale(shares: Float64Array, start: number, end: number): void {
  let sum = 0;
  for (let k = start; k < end; k++) sum += shares[k]!;
  if (!(sum > 0)) shares.fill(1 / (end - start), start, end);
  else for (let k = start; k < end; k++) shares[k]! /= sum;
}
