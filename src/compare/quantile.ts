/**
 * Quantile by linear interpolation between order statistics (type 7 of Hyndman & Fan 1996, the default of R and d3).
 *
 * @param sorted values in rising order, at least one
 * @param share 0 to 1
 * @example quantileOfSorted([1, 2, 3, 4], 0.5) // 2.5
 */
export function quantileOfSorted(sorted: readonly number[], share: number): number {
  if (sorted.length === 0) throw new RangeError("a quantile needs at least one value");
  const place = (sorted.length - 1) * Math.min(1, Math.max(0, share));
  const below = Math.floor(place);
  const low = sorted[below]!;
  const high = sorted[Math.min(below + 1, sorted.length - 1)]!;
  return low + (high - low) * (place - below);
}

/** Rising copy, for `quantileOfSorted`. */
export function sortedCopy(values: readonly number[]): number[] {
  return [...values].sort((a, b) => a - b);
}

/** Median of values in any order; null when there are none. */
export function medianOf(values: readonly number[]): number | null {
  return values.length === 0 ? null : quantileOfSorted(sortedCopy(values), 0.5);
}
