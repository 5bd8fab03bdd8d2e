/** Least-squares slope of y over x; null for fewer than three points or a single x. */
export function slope(points: readonly { readonly x: number; readonly y: number }[]): number | null {
  if (points.length < 3) return null;
  const n = points.length;
  const mx = points.reduce((s, p) => s + p.x, 0) / n;
  const my = points.reduce((s, p) => s + p.y, 0) / n;
  const sxx = points.reduce((s, p) => s + (p.x - mx) ** 2, 0);
  return sxx > 0 ? points.reduce((s, p) => s + (p.x - mx) * (p.y - my), 0) / sxx : null;
}

/** Standard normal quantile of a two-sided interval of 95 in 100. */
const Z95 = 1.96;

/**
 * Interval that holds the median of what the values were drawn from 95 times in 100, whatever their distribution (order
 * statistics: Conover, Practical Nonparametric Statistics [lit]), widened where neighbours resemble one another: values
 * that follow each other with correlation r tell as much as (1 - r) / (1 + r) of as many independent ones (Bayley &
 * Hammersley 1946 [memory]).
 *
 * @param values at least one, in order of time
 * @returns lowest and highest
 */
export function medianInterval(values: readonly number[]): readonly [low: number, high: number] {
  const sorted = [...values].sort((a, b) => a - b);
  const n = sorted.length;
  const middle = sorted[n >> 1]!;
  const signs = values.map((value) => Math.sign(value - middle));
  const alike = signs.slice(1).reduce((sum, sign, i) => sum + sign * signs[i]!, 0) / Math.max(1, n - 1);
  const r = Math.max(0, Math.min(0.9, alike));
  const reach = (Z95 * Math.sqrt(n * ((1 + r) / (1 - r)))) / 2;
  const at = (rank: number) => sorted[Math.max(0, Math.min(n - 1, rank))]!;
  return [at(Math.floor(n / 2 - reach)), at(Math.ceil(n / 2 + reach))];
}

/** Rounded to so many decimals, for figures that people read. */
export function rounded(value: number, decimals: number): number {
  const scale = 10 ** decimals;
  return Math.round(value * scale) / scale + 0;
}
