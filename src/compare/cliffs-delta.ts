/**
 * Cliff's delta (Cliff 1993): the share of pairs in which the first side is greater, less the share in which it is
 * smaller; -1 to 1. Null when a side is empty. Sorted merge, so n log n.
 *
 * @example cliffsDelta([1, 2, 3], [4, 5, 6]) // -1
 */
export function cliffsDelta(a: readonly number[], b: readonly number[]): number | null {
  if (a.length === 0 || b.length === 0) return null;
  const sorted = Float64Array.from(b).sort();
  let below = 0;
  let notAbove = 0;
  let balance = 0;
  for (const value of Float64Array.from(a).sort()) {
    while (below < sorted.length && sorted[below]! < value) below++;
    while (notAbove < sorted.length && sorted[notAbove]! <= value) notAbove++;
    balance += below - (sorted.length - notAbove);
  }
  return balance / (a.length * b.length);
}
