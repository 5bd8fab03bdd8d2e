import { quantile } from "d3-array";
import { chanceFrom } from "../statistics/chance.ts";

export const BOOTSTRAP_ROUNDS = 999;

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
  if (a.length < 3 || b.length < 3) return null;
  const chance = chanceFrom(seed);
  const draw = (units: readonly T[]) => units.map(() => units[Math.floor(chance() * units.length)]!);
  const values: number[] = [];
  for (let round = 0; round < rounds; round++) {
    const value = statistic(draw(a), draw(b));
    if (value !== null) values.push(value);
  }
  if (values.length < rounds / 2) return null;
  return [quantile(values, 0.025)!, quantile(values, 0.975)!];
}
