/** Points drawn by examples: those under which the known fingers are likeliest, held near the published rules. */
import { ERGONOMIC_RULES } from "../../../src/hands/ergonomics.ts";
import type { FactKind } from "../../../src/hands/finger-features.ts";
import { descend } from "./descent.ts";
import type { Example } from "./examples.ts";
import { costsOfSets, logSum } from "./field.ts";
import { FACTS, type FactSets, rowOf } from "./lattice.ts";

const LINE_START: Readonly<Record<number, number>> = {
  [ERGONOMIC_RULES.length]: 3,
  [ERGONOMIC_RULES.length + 1]: 2,
};
const BESIDE_START = [3, 3, 1];

/** The points from which they are drawn: the published rules, and what stands beside them in `LINE_RULES` and `BESIDE`. */
const START = rowOf((kind, index) => {
  if (kind === "rule")
    return ERGONOMIC_RULES[index] === "position change count" ? 0 : (LINE_START[index] ?? 1);
  if (kind === "repeated" || kind === "span") return 1;
  return kind === "beside" ? BESIDE_START[index]! : 0;
});
/** Kinds of few facts, which many notes tell about; the others are held faster to where they start. */
const FEW: ReadonlySet<FactKind> = new Set(["rule", "finger", "laid", "repeated", "span", "beside"]);
const HOLD = { few: 5, many: 20 };
const HOLDS = rowOf((kind) => (FEW.has(kind) ? HOLD.few : HOLD.many));

const STEPS = 40;

/** The drawn points of all facts, in one row. Deterministic. */
export function drawPoints(examples: readonly Example[], sets: FactSets, steps = STEPS): Float64Array {
  return descend((points, slopes) => improbability(examples, sets, points, slopes), START, steps);
}

/** How unlikely the known fingers are under these points; writes the slope for every point. */
export function improbability(
  examples: readonly Example[],
  sets: FactSets,
  points: Float64Array,
  slopes: Float64Array,
): number {
  const costs = costsOfSets(sets, points);
  const counts = new Float64Array(sets.facts.length);
  let value = 0;
  for (const { lattice, weight } of examples) {
    value += weight * logSum(lattice, costs, false, counts, -weight);
    value -= weight * logSum(lattice, costs, true, counts, weight);
  }
  slopes.fill(0);
  sets.facts.forEach((facts, id) => {
    const count = counts[id]!;
    if (count === 0) return;
    const times = sets.times[id]!;
    for (let k = 0; k < facts.length; k++) slopes[facts[k]!]! += count * times[k]!;
  });
  for (let k = 0; k < FACTS; k++) {
    const away = points[k]! - START[k]!;
    value += 0.5 * HOLDS[k]! * away * away;
    slopes[k]! += HOLDS[k]! * away;
  }
  return value;
}
