import { chanceFrom } from "../statistics/chance.ts";

/** Up to so many ways of dealing the units, all are tried and the p-value is exact. */
const MOST_EXACT = 5000;

/** Random deals when there are too many to try all. */
const ROUNDS = 1999;

export interface PermutationResult {
  /** Two-sided: share of deals at least as extreme as what was seen. Never 0. */
  readonly p: number;
  readonly exact: boolean;
  /** Smallest p that so few units could give at all. */
  readonly least: number;
}

/**
 * Permutation test over whole units (phrases, not notes, which are not independent): how often a random deal of all
 * units into two sides of the same sizes gives a statistic at least as far from 0 as the one seen. The statistic is a
 * difference or a divergence; deals on which it is null are left out.
 *
 * @example permutationTest([1, 2, 3], [4, 5, 6], (a, b) => mean(a) - mean(b), 1).p // 0.1
 */
export function permutationTest<T>(
  a: readonly T[],
  b: readonly T[],
  statistic: (a: readonly T[], b: readonly T[]) => number | null,
  seed: number,
): PermutationResult | null {
  if (a.length === 0 || b.length === 0) return null;
  const seen = statistic(a, b);
  if (seen === null) return null;
  const limit = Math.abs(seen) - 1e-12 * Math.max(1, Math.abs(seen));
  const all = [...a, ...b];
  const deals = binomial(all.length, a.length);
  let extreme = 0;
  let tried = 0;
  const judge = (first: readonly T[], second: readonly T[]) => {
    const value = statistic(first, second);
    if (value === null) return;
    tried++;
    if (Math.abs(value) >= limit) extreme++;
  };
  if (deals <= MOST_EXACT) {
    everyDeal(all, a.length, judge);
    return { p: extreme / tried, exact: true, least: (a.length === b.length ? 2 : 1) / deals };
  }
  const chance = chanceFrom(seed);
  for (let round = 0; round < ROUNDS; round++) {
    shuffle(all, a.length, chance);
    judge(all.slice(0, a.length), all.slice(a.length));
  }
  // The deal that was seen counts as one of the deals (Phipson & Smyth 2010).
  return { p: (extreme + 1) / (tried + 1), exact: false, least: 1 / (ROUNDS + 1) };
}

function binomial(n: number, k: number): number {
  let count = 1;
  for (let i = 1; i <= Math.min(k, n - k); i++) {
    count = (count * (n - Math.min(k, n - k) + i)) / i;
    if (count > 1e9) return Number.POSITIVE_INFINITY;
  }
  return Math.round(count);
}

function everyDeal<T>(all: readonly T[], size: number, judge: (a: T[], b: T[]) => void): void {
  const chosen = Array.from({ length: size }, (_, i) => i);
  for (;;) {
    const inside = new Set(chosen);
    judge(
      chosen.map((i) => all[i]!),
      all.filter((_, i) => !inside.has(i)),
    );
    let k = size - 1;
    while (k >= 0 && chosen[k] === all.length - size + k) k--;
    if (k < 0) return;
    chosen[k]!++;
    for (let j = k + 1; j < size; j++) chosen[j] = chosen[j - 1]! + 1;
  }
}

/** Deals the first `count` places; the rest stays as it falls (Fisher & Yates). */
function shuffle<T>(all: T[], count: number, chance: () => number): void {
  for (let i = 0; i < count; i++) {
    const j = i + Math.floor(chance() * (all.length - i));
    [all[i], all[j]] = [all[j]!, all[i]!];
  }
}
