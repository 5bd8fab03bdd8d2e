import { chanceFrom } from "../../../src/statistics/chance.ts";

/** Seeded chance for the simulator: the same seed gives the same take. */
export interface Random {
  /** 0 up to 1. */
  next(): number;
  between(low: number, high: number): number;
  /** Normally distributed with mean 0. */
  normal(deviation: number): number;
  chance(probability: number): boolean;
  pick<T>(items: readonly T[]): T;
  /** Whole number from `low` to `high`, both included. */
  whole(low: number, high: number): number;
}

export function seeded(seed: number): Random {
  const next = chanceFrom(seed * 0x9e3779b1);
  const random: Random = {
    next,
    between: (low, high) => low + (high - low) * next(),
    normal: (deviation) => deviation * Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next()),
    chance: (probability) => next() < probability,
    pick: (items) => items[Math.floor(next() * items.length)]!,
    whole: (low, high) => low + Math.floor(next() * (high - low + 1)),
  };
  for (let i = 0; i < 8; i++) next();
  return random;
}
