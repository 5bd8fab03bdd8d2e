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

/** Mulberry32, a 32-bit generator in the public domain. */
export function seeded(seed: number): Random {
  let state = (seed * 0x9e3779b1) >>> 0;
  const next = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
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
