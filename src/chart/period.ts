/** Share of bars in which a returning form may differ from itself: endings, and a substitution here and there. */
const TOLERANCE = 0.1;

/** A chorus shorter than this is counted in groups of as many bars. */
const SHORTEST_FORM = 4;

/**
 * Number of bars of the shortest form that returns: bar `i` is bar `i - length`, all through, but for a tenth. A form
 * has to be heard twice to be found; otherwise all the bars are one chorus. Vamps of one or two bars are grouped to
 * four.
 *
 * @param bars what stands in each bar as played out, equal strings for equal bars
 * @example formLength(["C", "F", "G", "C", "C", "F", "G", "C"]) // 4
 */
export function formLength(bars: readonly string[]): number {
  for (let length = 1; length * 2 <= bars.length; length++) {
    const allowed = TOLERANCE * (bars.length - length);
    let different = 0;
    for (let i = length; i < bars.length && different <= allowed; i++) {
      if (bars[i] !== bars[i - length]) different += 1;
    }
    if (different <= allowed) {
      const group = Math.ceil(SHORTEST_FORM / length) * length;
      return Math.min(group, bars.length);
    }
  }
  return bars.length;
}
