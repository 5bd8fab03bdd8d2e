/**
 * What the lattice says of a bar (the share of its readings that agree), and what share of such bars was right in the
 * fitted half of the open solos, each laid by tables counted in three quarters of that half without it, made rising
 * (Zadrozny & Elkan 2002); straight between the points.
 */

export type LatticeKind = keyof typeof FOUND_SHARES;

const FOUND_SHARES = {
  /** Beats and bar lines of the file. */
  "known bars": [
    [0, 0],
    [0.33, 0.3],
    [0.7, 0.73],
    [0.89, 0.84],
    [0.97, 0.98],
    [1, 0.99],
  ],
  /** Beats of the file, whose bar lines it does not state. */
  "known beats": [
    [0, 0],
    [0.28, 0.31],
    [0.5, 0.54],
    [0.62, 0.65],
    [0.84, 0.85],
    [0.98, 0.99],
    [1, 0.99],
  ],
  /** Two pins or more. */
  pinned: [
    [0, 0.1],
    [0.35, 0.47],
    [0.43, 0.66],
    [0.47, 0.79],
    [0.53, 0.85],
    [0.6, 0.94],
    [0.71, 0.98],
    [1, 0.99],
  ],
  "told tempo": [
    [0, 0],
    [0.12, 0.18],
    [0.24, 0.41],
    [0.32, 0.62],
    [0.43, 0.75],
    [0.57, 0.83],
    [0.8, 0.9],
    [1, 0.95],
  ],
  /**
   * A tempo that nobody told, and a hand that plays the chart: a rendered one on people's beats, so that the top is kept
   * below what was found.
   */
  "with comping": [
    [0, 0],
    [0.35, 0.45],
    [0.56, 0.77],
    [0.76, 0.97],
    [1, 0.99],
  ],
  "sought tempo": [
    [0, 0],
    [0.08, 0.02],
    [0.17, 0.14],
    [0.24, 0.45],
    [0.34, 0.62],
    [0.5, 0.67],
    [0.75, 0.78],
    [1, 0.9],
  ],
} as const;

/** Share of right bars among those that the lattice is so sure of. */
export function foundShare(share: number, kind: LatticeKind): number {
  const curve: readonly (readonly [number, number])[] = FOUND_SHARES[kind];
  let k = 1;
  while (k + 1 < curve.length && curve[k]![0] < share) k++;
  const [[x0, y0], [x1, y1]] = [curve[k - 1]!, curve[k]!];
  return y0 + ((Math.min(1, share) - x0) / (x1 - x0)) * (y1 - y0);
}
