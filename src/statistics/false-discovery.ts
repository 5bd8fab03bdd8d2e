/**
 * False-discovery rates at which each of some p-values would be kept (adjusted p-values of Benjamini & Hochberg 1995).
 *
 * @param pValues in any order
 * @param tests how many tests there were, when the ones not listed did no better than the worst listed
 * @returns parallel to `pValues`, each at most 1
 * @example falseDiscoveryRates([0.01, 0.04, 0.03]) // [0.03, 0.04, 0.04]
 */
export function falseDiscoveryRates(pValues: readonly number[], tests = pValues.length): number[] {
  const order = pValues.map((_, i) => i).sort((a, b) => pValues[a]! - pValues[b]!);
  const rates = new Array<number>(pValues.length);
  let least = 1;
  for (let rank = order.length; rank >= 1; rank--) {
    const i = order[rank - 1]!;
    least = Math.min(least, (pValues[i]! * Math.max(tests, pValues.length)) / rank);
    rates[i] = least;
  }
  return rates;
}
