import { quantile } from "d3-array";
import { chanceFrom } from "../statistics/chance.ts";

const BOOTSTRAP_ROUNDS = 999;

/** With fewer units a side is drawn as itself too often for an interval to mean anything. */
const LEAST_UNITS = 3;

/**
 * 95 % interval of a statistic of two sides by the percentile bootstrap (Efron 1979): whole units (phrases) are drawn
 * with replacement within each side. Null when a side has fewer than three units or the statistic has no answer in
 * more than half of the draws.
 */
export function bootstrapInterval<T>(
  a: readonly T[],
  b: readonly T[],
  statistic: (a: readonly T[], b: readonly T[]) => number | null,
  seed: number,
  rounds = BOOTSTRAP_ROUNDS,
): readonly [number, number] | null {
  if (a.length < LEAST_UNITS || b.length < LEAST_UNITS) return null;
  const draw = drawFrom<T>(seed);
  return middleOf(rounds, () => statistic(draw(a), draw(b)));
}

/** The same for a statistic of one side. */
export function bootstrapOne<T>(
  units: readonly T[],
  statistic: (units: readonly T[]) => number | null,
  seed: number,
  rounds = BOOTSTRAP_ROUNDS,
): readonly [number, number] | null {
  if (units.length < LEAST_UNITS) return null;
  const draw = drawFrom<T>(seed);
  return middleOf(rounds, () => statistic(draw(units)));
}

function drawFrom<T>(seed: number): (units: readonly T[]) => T[] {
  const chance = chanceFrom(seed);
  return (units) => units.map(() => units[Math.floor(chance() * units.length)]!);
}

/** The middle 95 % of what the draws give. */
function middleOf(rounds: number, draw: () => number | null): readonly [number, number] | null {
  const values: number[] = [];
  for (let round = 0; round < rounds; round++) {
    const value = draw();
    if (value !== null) values.push(value);
  }
  if (values.length < rounds / 2) return null;
  return [quantile(values, 0.025)!, quantile(values, 0.975)!];
}
