import { chanceFrom } from "../../src/statistics/chance.ts";

/** Seeded chance: the same seed gives the same take, on every machine. */
export interface Random {
  /** 0 up to, not including, 1. */
  next(): number;
  chance(probability: number): boolean;
  pick<T>(items: readonly T[]): T;
  /** Index drawn with these weights, which need not add up to 1; -1 when all are 0. */
  weighted(weights: readonly number[]): number;
  /** Normally distributed around 0. */
  normal(deviation: number): number;
}

export function randomFrom(seed: number): Random {
  const next = chanceFrom(seed);
  return {
    next,
    chance: (probability) => next() < probability,
    pick: (items) => items[Math.floor(next() * items.length)]!,
    weighted(weights) {
      const total = weights.reduce((sum, weight) => sum + weight, 0);
      if (total <= 0) return -1;
      let left = next() * total;
      for (let i = 0; i < weights.length; i++) {
        left -= weights[i]!;
        if (left < 0) return i;
      }
      return weights.length - 1;
    },
    // Sum of uniform draws: no logarithm or cosine, whose last bits differ between machines.
    normal(deviation) {
      let sum = -6;
      for (let i = 0; i < 12; i++) sum += next();
      return sum * deviation;
    },
  };
}
