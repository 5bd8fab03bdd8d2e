/**
 * A player who knows a few shapes plays a whole solo with them. Where many shapes are offered, fragments of a line
 * often lie in several of them; the smallest set that explains the whole line nearly as cheaply is the likeliest.
 */
import { PLACEMENT_COSTS as COST } from "./costs.ts";
import { FREE } from "./path-columns.ts";
import { candidatesFor, costOfFreedom, costOfStay, type StayMaterial, type Stretch } from "./stay-costs.ts";
import { shapeOf } from "./view.ts";

/** Up to so many shapes all sets are tried; beyond it the dearest shapes are dropped first. */
const MOST_TRIED = 8;

/**
 * Indices of the shapes to keep, rising: the set for which the dearer account of every stay, and
 * `PLACEMENT_COSTS.shapeKnown` points for each shape, cost least together. A stay may also be played by the free hand.
 *
 * @param evidence shapes are only offered: none at all may be the likeliest
 */
export function chooseShapes(material: StayMaterial, stays: readonly Stretch[], evidence: boolean): number[] {
  const shapes = material.costs.view.held.map((_, shape) => shape);
  const extra = extraCosts(material, stays, shapes.length);
  const used = new Set(stays.map(({ state }) => shapeOf(state)));
  const offered = [...used].sort((a, b) => a - b).slice(0, MOST_TRIED);
  let best = offered;
  let cheapest = Number.POSITIVE_INFINITY;
  for (let set = evidence ? 0 : 1; set < 1 << offered.length; set++) {
    const kept = offered.filter((_, k) => (set >> k) & 1);
    let cost = kept.length * COST.shapeKnown;
    for (let s = 0; s < stays.length && cost < cheapest; s++) {
      const { by, free } = extra[s]!;
      const held = kept.reduce((least, shape) => Math.min(least, by[shape]!), Number.POSITIVE_INFINITY);
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

/** For every stay how much dearer each shape's best placement, and the free hand, is than what was found. */
function extraCosts(material: StayMaterial, stays: readonly Stretch[], shapes: number): Extra[] {
  return stays.map((stay, s) => {
    const before = stays[s - 1]?.state ?? FREE;
    const after = stays[s + 1]?.state ?? FREE;
    const chosen = costOfStay(material, stay, stay.state, before, after);
    const free = costOfFreedom(material, stay) - chosen;
    const extra: number[] = new Array(shapes).fill(Number.POSITIVE_INFINITY);
    extra[shapeOf(stay.state)] = 0;
    for (const state of candidatesFor(material, stay)) {
      const shape = shapeOf(state);
      const limit = chosen + Math.min(Math.max(0, free) + COST.lapse, extra[shape]!);
      const cost = costOfStay(material, stay, state, before, after, limit) - chosen;
      if (cost < extra[shape]!) extra[shape] = Math.max(0, cost);
    }
    return { by: extra, free };
  });
}
