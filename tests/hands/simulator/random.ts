/** A seeded generator of uniform numbers (a 32-bit mix with a Weyl sequence): the same seed, the same solo. */
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
  let state = (seed * 0x9e3779b1) >>> 0;
  const next = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
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
