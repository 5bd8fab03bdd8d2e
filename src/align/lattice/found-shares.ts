/**
 * What the lattice says of a bar (the share of its readings that agree), and what share of such bars was right in the
 * fitted half of the open solos, each laid by tables counted in three quarters of that half without it.
 */
import { logistic } from "../../statistics/logistic.ts";

export type LatticeKind = "pinned" | keyof typeof WEIGHTS;

/** With two pins or more, made rising (Zadrozny & Elkan 2002); straight between the points. */
const PINNED: readonly (readonly [number, number])[] = [
  [0, 0.1],
  [0.35, 0.47],
  [0.43, 0.66],
  [0.47, 0.79],
  [0.53, 0.85],
  [0.6, 0.94],
  [0.71, 0.98],
  [1, 0.99],
];

/**
 * Without, by a logistic rule: the log odds of the share, those of the mean share of the take, and how far the take fits
 * better where it lies than with the form turned under it by whole bars. Takes on a click that are laid wrongly are mostly
 * a bar or two off in the form, and the shares alone are sure of them; where no click is followed, a beat that is lost once
 * puts all bars after it beside their places. What is said of a chart that fits badly is on top of it (`withChartDoubt`).
 * Nothing surer than `most` was found to be so.
 */
const WEIGHTS = {
  /** Beats and bar lines of the file. */
  "known bars": { base: 0.53, share: 0.74, mean: 0, turned: 1.6, most: 0.99 },
  /** Beats of the file, whose bar lines it does not state. */
  "known beats": { base: 0.25, share: 0.66, mean: 0, turned: 0.95, most: 0.97 },
  "told tempo": { base: 0.62, share: 0.56, mean: 0.55, turned: 0, most: 0.88 },
  /** A tempo that nobody told, and a hand that plays the chart. */
  "with comping": { base: 0.12, share: 0.62, mean: 0.7, turned: 0, most: 0.99 },
  "sought tempo": { base: -0.42, share: 1.24, mean: 0, turned: 0, most: 0.88 },
} as const;

/** Nats of a margin that say much; several times as many say no more. */
const MUCH = 6;
/** Shares nearer to none and all are taken for these. */
const NEAREST = 0.01;

export interface AboutTake {
  /** Mean share of the take's strokes. */
  readonly mean: number;
  /** Nats by which the take fits better where it lies than turned (`turnMargin`); asked where it counts. */
  readonly margin: () => number | null;
}

/** How sure a bar is of which the lattice says a share, as a function of that share. */
export function sureBy(kind: LatticeKind, { mean, margin }: AboutTake): (share: number) => number {
  if (kind === "pinned") return foundWithPins;
  const { base, share: byShare, mean: byMean, turned, most } = WEIGHTS[kind];
  const byTurns = turned === 0 ? 0 : turned * Math.tanh((margin() ?? 0) / MUCH);
  const fixed = base + byMean * logOdds(mean) + byTurns;
  return (share) => Math.min(most, logistic(fixed + byShare * logOdds(share)));
}

function logOdds(share: number): number {
  const held = Math.max(NEAREST, Math.min(1 - NEAREST, share));
  return Math.log(held / (1 - held));
}

function foundWithPins(share: number): number {
  let k = 1;
  while (k + 1 < PINNED.length && PINNED[k]![0] < share) k++;
  const [[x0, y0], [x1, y1]] = [PINNED[k - 1]!, PINNED[k]!];
  return y0 + ((Math.min(1, share) - x0) / (x1 - x0)) * (y1 - y0);
}
