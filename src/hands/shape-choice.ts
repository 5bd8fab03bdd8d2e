/**
 * A player who knows a few shapes plays a whole solo with them. Where many shapes are offered, fragments of a line
 * often lie in several of them; the smallest set that explains the whole line nearly as cheaply is the likeliest.
 */
import { PLACEMENT_COSTS as COST } from "./costs.ts";
import { RunCosts, type RunMaterial, type Stretch } from "./placement-run-costs.ts";
import { shapeOf } from "./shape-states.ts";
import { FREE } from "./viterbi-columns.ts";

/** Up to so many shapes all sets are tried; beyond it the dearest shapes are dropped first. */
const MOST_TRIED = 8;

/**
 * Indices of the shapes to keep, rising: the set for which the dearer account of every run, and
 * `PLACEMENT_COSTS.shapeKnown` points for each shape, cost least together. A run may also be played by the free hand.
 *
 * @param evidence shapes are only offered: none at all may be the likeliest
 */
export function chooseShapes(material: RunMaterial, runs: readonly Stretch[], evidence: boolean): number[] {
  const shapes = material.costs.view.held.map((_, shape) => shape);
  const extra = extraCosts(material, runs, shapes.length);
  const used = new Set(runs.map(({ state }) => shapeOf(state)));
  const offered = [...used].sort((a, b) => a - b).slice(0, MOST_TRIED);
  let best = offered;
  let cheapest = Number.POSITIVE_INFINITY;
  for (let set = evidence ? 0 : 1; set < 1 << offered.length; set++) {
    const kept = offered.filter((_, k) => (set >> k) & 1);
    let cost = kept.length * COST.shapeKnown;
    for (let s = 0; s < runs.length && cost < cheapest; s++) {
      const { by, free } = extra[s]!;
      let held = Number.POSITIVE_INFINITY;
      for (const shape of kept) if (by[shape]! < held) held = by[shape]!;
      cost += kept.length === 0 ? free : Math.min(held, Math.max(0, free) + COST.lapse);
    }
    if (cost < cheapest) [best, cheapest] = [kept, cost];
  }
  return best;
}

interface Extra {
  /** By shape. */
  readonly by: readonly number[];
  readonly free: number;
}

/** For every run how much dearer each shape's best placement, and the free hand, is than what was found. */
function extraCosts(material: RunMaterial, runs: readonly Stretch[], count: number): Extra[] {
  const costs = new RunCosts(material);
  const { shapes } = material.costs.view;
  return runs.map((run, s) => {
    const before = runs[s - 1]?.state ?? FREE;
    const after = runs[s + 1]?.state ?? FREE;
    const chosen = costs.from(run, run.state, before, after);
    const free = costs.free(run) - chosen;
    const extra: number[] = new Array(count).fill(Number.POSITIVE_INFINITY);
    extra[shapeOf(run.state)] = 0;
    for (const state of costs.candidates(run)) {
      const shape = shapes[state]!;
      const limit = chosen + Math.min(Math.max(0, free) + COST.lapse, extra[shape]!);
      const cost = costs.from(run, state, before, after, limit) - chosen;
      if (cost < extra[shape]!) extra[shape] = Math.max(0, cost);
    }
    return { by: extra, free };
  });
}
