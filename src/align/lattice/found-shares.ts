/**
 * What the lattice says of a bar (the share of its readings that agree), and what share of such bars was right in the
 * fitted half of the open solos, each laid by tables counted without its style and instrument.
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
 * Where no beat is sought, the share says little from .5 to .9: of 21 takes on a click with beat 1 known six lie wrongly, a
 * bar or two off in the form, and of 89 above .9 one. Nothing else that was asked parts these: how far the form turned under
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
    [0.1, 0.12],
    [0.3, 0.32],
    [0.5, 0.58],
    [0.7, 0.78],
    [0.9, 0.95],
    [1, 0.99],
  ],
  "sought tempo": [
    [0, 0.06],
    [0.15, 0.1],
    [0.25, 0.18],
    [0.35, 0.34],
    [0.5, 0.52],
    [0.65, 0.73],
    [0.8, 0.88],
    [1, 0.92],
  ],
} as const satisfies Record<string, Curve>;

/**
 * Of a form of one bar nothing tells which of its bars was the first: whether a take is led in or has begun is even.
 * [practice; the only such solo of the fitted half is told a lead of sixteen bars as choruses under five conditions]
 */
const OF_ONE_BAR = 0.5;

/**
 * At a told tempo by a logistic rule: the log odds of the share and those of the mean share of the take, since a beat that is
 * lost once puts all bars after it beside their places; nothing surer than `most` was found to be so.
 */
const TOLD = { base: 0.62, share: 0.56, mean: 0.55, most: 0.88 } as const;
/** Shares nearer to none and all are taken for these. */
const NEAREST = 0.01;

/** What tells of a bar beside its own share. */
export interface AboutTake {
  /** Mean share of the take's strokes. */
  readonly mean: number;
  /** Bars of the form. */
  readonly bars: number;
}

/** How sure a bar is of which the lattice says a share, as a function of that share. */
export function sureBy(kind: LatticeKind, { mean, bars }: AboutTake): (share: number) => number {
  if (kind === "pinned") return (share) => found(FOUND.pinned, share);
  const most = bars < 2 ? OF_ONE_BAR : 1;
  if (kind !== "told tempo") return (share) => Math.min(most, found(FOUND[kind], share));
  const fixed = TOLD.base + TOLD.mean * logOdds(mean);
  return (share) => Math.min(most, TOLD.most, logistic(fixed + TOLD.share * logOdds(share)));
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
