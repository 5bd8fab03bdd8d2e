/**
 * How likely every finger is on every key: the sum over all fingerings of a line, each as likely as its points make it,
 * forward and backward over pairs of grips. [lit: Lafferty, McCallum and Pereira 2001, for such fields; taking the
 * likeliest of each place in place of the likeliest whole is common practice where places are counted]
 */
import { type FingerCosts, oddsOf } from "./finger-costs.ts";
import type { Joined, Step } from "./finger-steps.ts";

interface Forward {
  /** For every step the shares of its pairs of grips, all that comes before them counted; of its grips at the first. */
  readonly shares: readonly Float64Array[];
  /** Odds of each pair of grips by what joins them and by the later grip. */
  readonly joins: readonly Float64Array[];
}

/** For every step and grip how many of the step's struck keys have their likeliest finger with it, in expectation. */
export function expectedMet(line: Joined, costs: FingerCosts): Float64Array[] {
  const { steps } = line;
  const { shares, joins } = goForward(line, costs);
  const met: Float64Array[] = new Array(steps.length);
  let after = new Float64Array(shares[steps.length - 1]!.length).fill(1);
  for (let i = steps.length - 1; i >= 0; i--) {
    const cs = steps[i]!.grips.length;
    const likely = new Float64Array(cs);
    shares[i]!.forEach((share, k) => {
      likely[k % cs]! += share * after[k]!;
    });
    met[i] = metBy(steps[i]!, scaled(likely));
    if (i > 0) after = goBack(line, i, joins[i]!, after, costs);
  }
  return met;
}

function goForward(line: Joined, costs: FingerCosts): Forward {
  const { steps, links } = line;
  const joins = steps.map((step, i) => {
    const own = step.own.map(oddsOf);
    return i === 0 ? own : links[i]!.map((points, k) => own[k % own.length]! * oddsOf(points));
  });
  const shares: Float64Array[] = [scaled(Float64Array.from(joins[0]!))];
  for (let i = 1; i < steps.length; i++) shares.push(reachedAt(line, i, joins[i]!, shares[i - 1]!, costs));
  return { shares, joins };
}

/** Shares of the pairs of grips of step i, from those of the step before. */
function reachedAt(
  line: Joined,
  i: number,
  join: Float64Array,
  before: Float64Array,
  costs: FingerCosts,
): Float64Array {
  const [ps, cs] = [line.steps[i - 1]!.grips.length, line.steps[i]!.grips.length];
  const es = before.length / ps;
  const odds = new Float64Array(es).fill(1);
  const found = new Float64Array(join.length);
  for (let p = 0; p < ps; p++) {
    for (let c = 0; c < cs; c++) {
      if (line.bounds[i]! > 0) threeOdds(line, i, p, c, costs, odds);
      let reached = 0;
      for (let e = 0; e < es; e++) reached += before[e * ps + p]! * odds[e]!;
      found[p * cs + c] = join[p * cs + c]! * reached;
    }
  }
  return scaled(found);
}

/** What comes after the pairs of grips of step i - 1, from what comes after those of step i. */
function goBack(
  line: Joined,
  i: number,
  join: Float64Array,
  after: Float64Array,
  costs: FingerCosts,
): Float64Array<ArrayBuffer> {
  const [ps, cs] = [line.steps[i - 1]!.grips.length, line.steps[i]!.grips.length];
  const es = i > 1 ? line.steps[i - 2]!.grips.length : 1;
  const odds = new Float64Array(es).fill(1);
  const earlier = new Float64Array(es * ps);
  for (let p = 0; p < ps; p++) {
    for (let c = 0; c < cs; c++) {
      const onward = join[p * cs + c]! * after[p * cs + c]!;
      if (line.bounds[i]! > 0) threeOdds(line, i, p, c, costs, odds);
      for (let e = 0; e < es; e++) earlier[e * ps + p]! += onward * odds[e]!;
    }
  }
  return scaled(earlier);
}

/** How likely grips e, p and c of three steps in a row are by what three notes cost, for every e; into `odds`. */
function threeOdds(
  { steps, bounds }: Joined,
  i: number,
  p: number,
  c: number,
  costs: FingerCosts,
  odds: Float64Array,
): void {
  const [earlier, before, step] = [steps[i - 2]!, steps[i - 1]!, steps[i]!];
  const [b, last] = [before.tops[p], step.tops[c]];
  for (let e = 0; e < earlier.tops.length; e++) {
    const a = earlier.tops[e];
    odds[e] = a && b && last ? costs.tripleOdds(a, earlier.top, b, last, step.top, bounds[i]!) : 1;
  }
}

/** Sums, over the struck keys, how likely the finger is that a grip has there. */
function metBy({ moment, grips }: Step, likely: Float64Array): Float64Array {
  const met = new Float64Array(grips.length);
  moment.struck.forEach((n, k) => {
    if (n < 0) return;
    const fingers = new Float64Array(6);
    grips.forEach((grip, c) => {
      fingers[grip.fingers[k] ?? 0]! += likely[c]!;
    });
    grips.forEach((grip, c) => {
      met[c]! += fingers[grip.fingers[k] ?? 0]!;
    });
  });
  return met;
}

/** The same shares, summing to 1; equal ones where known fingers are so far from likely that nothing is left. */
function scaled(shares: Float64Array<ArrayBuffer>): Float64Array<ArrayBuffer> {
  let sum = 0;
  for (const share of shares) sum += share;
  if (!(sum > 0)) return shares.fill(1 / shares.length);
  for (let k = 0; k < shares.length; k++) shares[k]! /= sum;
  return shares;
}
