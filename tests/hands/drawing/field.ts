/**
 * How likely the known fingers of a line are, and what points would make them likelier: a conditional random field over
 * the grips of a lattice, whose costs are read as improbabilities. [lit: Lafferty, McCallum and Pereira 2001; memory]
 */
import type { FactSets, LatticeStep } from "./lattice.ts";

/** Costs of all sets of facts, and their exponentials. */
export interface SetCosts {
  readonly cost: Float64Array;
  readonly odds: Float64Array;
}

export function costsOfSets(sets: FactSets, points: Float64Array): SetCosts {
  const cost = Float64Array.from(sets.facts, (facts, id) => {
    const times = sets.times[id]!;
    let sum = 0;
    for (let k = 0; k < facts.length; k++) sum += times[k]! * points[facts[k]!]!;
    return sum;
  });
  return { cost, odds: cost.map((one) => Math.exp(-one)) };
}

interface Forward {
  /** For every step the shares of its states: grips at the first, pairs of grips after it. */
  readonly shares: readonly Float64Array[];
  /** Exponentials of what a pair of grips costs, the later grip's own cost with it. */
  readonly joins: readonly Float64Array[];
  readonly scales: readonly number[];
  readonly logSum: number;
}

/**
 * Logarithm of the sum over all fingerings, or over the allowed ones; `counts`, if given, gets for every set of facts
 * how often it is expected to hold, times `sign`.
 */
export function logSum(
  lattice: readonly LatticeStep[],
  costs: SetCosts,
  allowedOnly: boolean,
  counts: Float64Array | null,
  sign: number,
): number {
  const forward = goForward(lattice, costs, allowedOnly);
  if (counts !== null) goBack(lattice, costs, forward, counts, sign);
  return forward.logSum;
}

function goForward(lattice: readonly LatticeStep[], costs: SetCosts, allowedOnly: boolean): Forward {
  const shares: Float64Array[] = [];
  const joins: Float64Array[] = [];
  const scales: number[] = [];
  let total = 0;
  lattice.forEach((step, i) => {
    const cs = step.own.length;
    const own = step.own.map((cost, c) =>
      allowedOnly && step.allowed[c] === 0 ? 0 : Math.exp(-cost) * costs.odds[step.ownFacts[c]!]!,
    );
    let found: Float64Array = own;
    if (i > 0) {
      const ps = lattice[i - 1]!.own.length;
      const join = new Float64Array(ps * cs);
      found = new Float64Array(ps * cs);
      for (let k = 0; k < join.length; k++) {
        if (own[k % cs] === 0) continue;
        join[k] =
          own[k % cs]! * Math.exp(-step.link[k]! - step.linkScale[k]! * costs.cost[step.linkFacts[k]!]!);
        found[k] = join[k]! * reached(lattice, shares[i - 1]!, costs, i, Math.floor(k / cs), k);
      }
      joins[i] = join;
    }
    const sum = found.reduce((a, b) => a + b, 0);
    for (let k = 0; k < found.length; k++) found[k]! /= sum;
    shares.push(found);
    scales.push(sum);
    total += Math.log(sum);
  });
  return { shares, joins, scales, logSum: total };
}

/** Share of grip p of step i - 1 with all that leads to it, three in a row counted; k: the pair that it forms. */
function reached(
  lattice: readonly LatticeStep[],
  before: Float64Array,
  costs: SetCosts,
  i: number,
  p: number,
  k: number,
): number {
  if (i === 1) return before[p]!;
  const step = lattice[i]!;
  const ps = lattice[i - 1]!.own.length;
  const es = lattice[i - 2]!.own.length;
  let sum = 0;
  if (step.tripleScale === 0) {
    for (let e = 0; e < es; e++) sum += before[e * ps + p]!;
    return sum;
  }
  for (let e = 0; e < es; e++) {
    const share = before[e * ps + p]!;
    if (share > 0) sum += share * tripleOdds(step, costs, k * es + e);
  }
  return sum;
}

function tripleOdds(step: LatticeStep, costs: SetCosts, at: number): number {
  const set = step.tripleFacts[at]!;
  return step.tripleScale === 1 ? costs.odds[set]! : Math.exp(-step.tripleScale * costs.cost[set]!);
}

function goBack(
  lattice: readonly LatticeStep[],
  costs: SetCosts,
  { shares, joins, scales }: Forward,
  counts: Float64Array,
  sign: number,
): void {
  const count = (set: number, times: number) => {
    counts[set]! += sign * times;
  };
  const last = lattice.length - 1;
  let after: Float64Array = new Float64Array(shares[last]!.length).fill(1);
  for (let i = last; i > 0; i--) {
    const step = lattice[i]!;
    const share = shares[i]!;
    const [ps, cs] = [lattice[i - 1]!.own.length, step.own.length];
    const es = i > 1 ? lattice[i - 2]!.own.length : 1;
    const sum = share.reduce((all, one, k) => all + one * after[k]!, 0);
    const earlier = new Float64Array(shares[i - 1]!.length);
    for (let k = 0; k < share.length; k++) {
      const p = Math.floor(k / cs);
      const times = (share[k]! * after[k]!) / sum;
      const onward = joins[i]![k]! * after[k]!;
      if (onward === 0) continue;
      if (times > 0) {
        count(step.ownFacts[k % cs]!, times);
        count(step.linkFacts[k]!, step.linkScale[k]! * times);
      }
      if (i === 1) {
        earlier[p]! += onward;
        continue;
      }
      for (let e = 0; e < es; e++) {
        const reach = shares[i - 1]![e * ps + p]!;
        if (reach === 0) continue;
        const odds = step.tripleScale === 0 ? 1 : tripleOdds(step, costs, k * es + e);
        earlier[e * ps + p]! += onward * odds;
        if (step.tripleScale === 0) continue;
        const together = (reach * onward * odds) / (sum * scales[i]!);
        count(step.tripleFacts[k * es + e]!, step.tripleScale * together);
      }
    }
    const most = earlier.reduce((a, b) => Math.max(a, b), 0);
    after = earlier.map((one) => one / most);
  }
  const sum = shares[0]!.reduce((all, one, c) => all + one * after[c]!, 0);
  for (let c = 0; c < shares[0]!.length; c++)
    count(lattice[0]!.ownFacts[c]!, (shares[0]![c]! * after[c]!) / sum);
}
