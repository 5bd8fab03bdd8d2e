/**
 * What the lattice says of a bar (the share of its readings that agree), and what share of such bars was right in the
 * fitted half of the open solos, made rising (Zadrozny & Elkan 2002); straight between the points. Neighbouring notes
 * lean on each other, so that the shares alone are too sure.
 */

export type LatticeKind = keyof typeof FOUND_SHARES;

export const FOUND_SHARES = {
  "known beats": [
    [0, 0],
    [0.27, 0.01],
    [0.63, 0.37],
    [0.93, 0.58],
    [0.995, 0.97],
    [1, 0.99],
  ],
  "told tempo": [
    [0, 0],
    [0.19, 0.11],
    [0.47, 0.29],
    [0.62, 0.45],
    [0.72, 0.55],
    [0.81, 0.68],
    [0.87, 0.77],
    [0.94, 0.91],
    [1, 0.96],
  ],
  "sought tempo": [
    [0, 0.06],
    [0.24, 0.07],
    [0.38, 0.08],
    [0.57, 0.12],
    [0.77, 0.24],
    [0.86, 0.53],
    [0.94, 0.65],
    [0.99, 0.97],
    [1, 0.97],
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
