/**
 * Adjusted p-values that hold the false-discovery rate (Benjamini & Hochberg 1995), in the order given.
 *
 * @example adjusted([0.01, 0.04, 0.03]) // [0.03, 0.04, 0.04]
 */
export function adjusted(p: readonly number[]): number[] {
  const order = p.map((_, i) => i).sort((a, b) => p[b]! - p[a]!);
  const q = new Array<number>(p.length);
  let least = 1;
  order.forEach((index, place) => {
    least = Math.min(least, (p[index]! * p.length) / (p.length - place));
    q[index] = least;
  });
  return q;
}
