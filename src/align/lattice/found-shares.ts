/**
 * What the lattice says of a bar (the share of its readings that agree), and what share of such bars was right in open
 * solos, each laid by tables counted without its player (see the report `align human`).
 */
import { logistic } from "../../statistics/logistic.ts";

export type LatticeKind = "told tempo" | keyof typeof FOUND;

type Curve = readonly (readonly [number, number])[];

/**
 * Share of readings and share of right bars, made rising, with neighbours of few takes held together (Zadrozny & Elkan
 * 2002); straight between the points. Takes weigh alike, however long, since a take is mostly right or wrong as a whole.
 * Each was chosen by how it holds for styles and instruments that it was not fitted on. What is said of a chart that fits
 * badly is on top of it (`withChartDoubt`).
 *
 * Where no beat is sought, the share says little from .5 to .9: of 30 takes on a click with beat 1 known eight lie wrongly, a
 * bar or two off in the form, and of 172 above .9 four. Nothing else that was asked parts these: how far the form turned under
 * the take by bars or beats fits worse, what its beginning and end are worth, its length, its density, how its notes fit.
 */
const FOUND = {
  /** Two pins or more. */
  pinned: [
    [0, 0.15],
    [0.3, 0.5],
    [0.45, 0.72],
    [0.6, 0.9],
    [0.75, 0.98],
    [1, 0.99],
  ],
  /** Beats and bar lines of the file. */
  "known bars": [
    [0, 0.3],
    [0.5, 0.7],
    [0.85, 0.78],
    [0.88, 0.9],
    [0.96, 0.92],
    [0.98, 0.98],
    [1, 0.99],
  ],
  /** Beats of the file, whose bar lines it does not state. */
  "known beats": [
    [0, 0.2],
    [0.3, 0.4],
    [0.5, 0.57],
    [0.75, 0.76],
    [0.93, 0.82],
    [0.97, 0.94],
    [0.99, 0.975],
    [1, 0.98],
  ],
  /** A tempo that nobody told, and a hand that plays the chart. */
  "with comping": [
    [0, 0.05],
    [0.3, 0.14],
    [0.45, 0.32],
    [0.55, 0.57],
    [0.65, 0.81],
    [0.75, 0.93],
    [0.85, 0.98],
    [1, 0.99],
  ],
  "sought tempo": [
    [0, 0.02],
    [0.15, 0.06],
    [0.25, 0.13],
    [0.35, 0.24],
    [0.5, 0.5],
    [0.65, 0.74],
    [0.8, 0.9],
    [1, 0.95],
  ],
} as const satisfies Record<string, Curve>;

/**
 * Of a form of one bar nothing tells which of its bars was the first: whether a take is led in or has begun is even.
 * [practice; the only such solo of the fitted half is told a lead of sixteen bars as choruses under five conditions]
 */
const OF_ONE_BAR = 0.5;

/**
 * At a told tempo by a logistic rule (Platt 1999): readings of one take lean on each other, so that the log odds of their
 * share count half as much again, and a little more for right. What share the take has on the whole adds nothing to that.
 * Rules fitted without a kin of instruments said .95 to .97 at most of its surest bars, of which .94 were right.
 */
const TOLD = { base: 0.84, share: 1.48, most: 0.97 } as const;
/** Shares nearer to none and all are taken for these. */
const NEAREST = 0.003;

/** How sure a bar is of which the lattice says a share, over a form of so many bars, as a function of that share. */
export function sureBy(kind: LatticeKind, bars: number): (share: number) => number {
  if (kind === "pinned") return (share) => found(FOUND.pinned, share);
  const most = bars < 2 ? OF_ONE_BAR : 1;
  if (kind !== "told tempo") return (share) => Math.min(most, found(FOUND[kind], share));
  return (share) => Math.min(most, TOLD.most, logistic(TOLD.base + TOLD.share * logOdds(share)));
}

function logOdds(share: number): number {
  const held = Math.max(NEAREST, Math.min(1 - NEAREST, share));
  return Math.log(held / (1 - held));
}

function found(curve: Curve, share: number): number {
  let k = 1;
  while (k + 1 < curve.length && curve[k]![0] < share) k++;
  const [[x0, y0], [x1, y1]] = [curve[k - 1]!, curve[k]!];
  return y0 + ((Math.min(1, share) - x0) / (x1 - x0)) * (y1 - y0);
}
