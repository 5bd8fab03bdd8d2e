import type { Shares } from "./shares.ts";

/**
 * Jensen-Shannon divergence of two distributions, base 2 (Lin 1991): 0 when they are the same, 1 when they have no
 * label in common. Labels that a side lacks count as 0. Empty sides give 0.
 *
 * @example jensenShannon({ a: 0.5, b: 0.5 }, { a: 1 }) // 0.311278
 */
export function jensenShannon(a: Shares, b: Shares): number {
  const labels = [...new Set([...Object.keys(a), ...Object.keys(b)])];
  return jensenShannonOfCounts(
    labels.map((label) => a[label] ?? 0),
    labels.map((label) => b[label] ?? 0),
  );
}

/** The same for counts or shares in parallel columns. */
export function jensenShannonOfCounts(a: ArrayLike<number>, b: ArrayLike<number>): number {
  let totalA = 0;
  let totalB = 0;
  for (let i = 0; i < a.length; i++) {
    totalA += a[i]!;
    totalB += b[i]!;
  }
  if (totalA === 0 || totalB === 0) return 0;
  let divergence = 0;
  for (let i = 0; i < a.length; i++) {
    const p = a[i]! / totalA;
    const q = b[i]! / totalB;
    const middle = (p + q) / 2;
    if (p > 0) divergence += (p * Math.log2(p / middle)) / 2;
    if (q > 0) divergence += (q * Math.log2(q / middle)) / 2;
  }
  return Math.min(1, Math.max(0, divergence));
}
