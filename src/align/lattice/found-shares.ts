/**
 * What the lattice says of a bar (the share of its readings that agree), and what share of such bars was right in the
 * fitted half of the open solos, each laid by tables counted in three quarters of that half without it, made rising
 * (Zadrozny & Elkan 2002); straight between the points.
 */

export type LatticeKind = keyof typeof FOUND_SHARES | keyof typeof WEIGHTS;

const FOUND_SHARES = {
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

/**
 * The same where beats or tempo are known, by a logistic rule: the log odds of the share, and how far the take fits
 * better where it lies than with the form turned under it by whole bars. Takes on a click that are laid wrongly are
 * often one or two bars off in the form (7 of 19 in the fitted half), and the shares alone are sure of them. What is
 * said of a chart that fits badly is on top of it (`withChartDoubt`). Nothing surer than `most` was found to be so.
 */
const WEIGHTS = {
  /** Beats and bar lines of the file. */
  "known bars": { base: 0.44, share: 0.81, turned: 2.64, most: 0.99 },
  /** Beats of the file, whose bar lines it does not state. */
  "known beats": { base: 0.48, share: 0.59, turned: 2.11, most: 0.98 },
  "told tempo": { base: 1.15, share: 1.18, turned: 0.41, most: 0.88 },
} as const;

/** Nats of a margin that say much; several times as many say no more. */
const MUCH = 6;
/** Shares nearer to none and all are taken for these. */
const NEAREST = 0.01;

/**
 * How sure a bar is of which the lattice says a share, as a function of that share.
 *
 * @param margin nats by which the take fits better where it lies than turned (`turnMargin`); asked where it counts
 */
export function sureBy(kind: LatticeKind, margin: () => number | null): (share: number) => number {
  if (!isWeighed(kind)) return (share) => foundShare(share, kind);
  const { base, share: byShare, turned, most } = WEIGHTS[kind];
  const fixed = base + turned * Math.tanh((margin() ?? 0) / MUCH);
  return (share) => {
    const held = Math.max(NEAREST, Math.min(1 - NEAREST, share));
    return Math.min(most, 1 / (1 + Math.exp(-fixed - byShare * Math.log(held / (1 - held)))));
  };
}

function isWeighed(kind: LatticeKind): kind is keyof typeof WEIGHTS {
  return kind in WEIGHTS;
}

/** Share of right bars among those that the lattice is so sure of. */
function foundShare(share: number, kind: keyof typeof FOUND_SHARES): number {
  const curve: readonly (readonly [number, number])[] = FOUND_SHARES[kind];
  let k = 1;
  while (k + 1 < curve.length && curve[k]![0] < share) k++;
  const [[x0, y0], [x1, y1]] = [curve[k - 1]!, curve[k]!];
  return y0 + ((Math.min(1, share) - x0) / (x1 - x0)) * (y1 - y0);
}
