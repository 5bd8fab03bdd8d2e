import { chanceFrom } from "../../../src/statistics/chance.ts";

/** A seeded generator of uniform numbers: the same seed, the same solo. */
export interface Random {
  /** 0 up to, not with, 1. */
  next(): number;
  /** True with this probability. */
  chance(probability: number): boolean;
  /** 0 to count - 1. */
  below(count: number): number;
  /** Index drawn in proportion to the weights. */
  weighted(weights: readonly number[]): number;
}

export function seeded(seed: number): Random {
  const next = chanceFrom(seed * 0x9e3779b1);
  return {
    next,
    chance: (probability) => next() < probability,
    below: (count) => Math.floor(next() * count),
    weighted: (weights) => {
      let left = next() * weights.reduce((sum, weight) => sum + weight, 0);
      for (let i = 0; i < weights.length; i++) {
        left -= weights[i]!;
        if (left < 0) return i;
      }
      return weights.length - 1;
    },
  };
}
