/** Whether a chart is the one that was played, by a line alone. */
import { logistic } from "../statistics/logistic.ts";
import { heldOdds } from "./comping-fit.ts";

/**
 * The constant, and what the features of a line alone are worth, learned by `npm run report -- given-charts 200 teach told
 * click` with tables of lines that were counted without the solo.
 */
export const LINE_WEIGHTS: readonly number[] = [-0.908, 0.845, 0.87];

/**
 * Log odds from which on a chart is said to fit a line alone: `from`, less `each` times the sureness of its bars, of which
 * more than `most` tells nothing more. A wrong chart is laid where it fits best as well, but its bars are then seldom sure;
 * and a right one of which the bars are half sure is told by a line that fits it much better than any other key.
 *
 * Of the fitted half, tempo told and on a click, each group of style and instrument held out (`npm run report --
 * given-charts 200 teach told click` prints what is learned), 7 and 4 wrong charts of 466 are said to fit, 8 and 7 right
 * ones of 117 are doubted, and of 3 and 1 it cannot be told. From 3.3 on these are 8 and 7 wrong ones and 8, 7, 2 and 1;
 * from 2.9 on 17 and 14, and 6, 5, 2 and 1; from 3.9 on 4 and 3, and 11, 11, 4 and 1.
 */
export const LINE_FITS = { from: 3.6, each: 3.9, most: 0.8 } as const;

/**
 * Where bars are less sure than this, as likely wrong as right, the notes are not held against their own chords: of a
 * chart that does not fit it cannot be told whether it is the chart or the bars.
 */
const SURE = 0.5;

/** Log odds of the chart by the places in its chords; nats in a hundred notes by which it fits better than in any other key. */
export type LineFeatures = readonly [number, number];

/** Notes whose nats are one feature: of about the size of the other, so that learning holds both alike. */
const NOTES = 100;

/**
 * @param odds log odds of the chart by the places in its chords
 * @param margin nats a note by which the line fits it better than any other key, wherever in the form
 */
export function lineFeatures(odds: number, margin: number): LineFeatures {
  return [heldOdds(odds), NOTES * margin];
}

/** How likely the chart is where the line stands alone, 0 to 1. */
export function byLine(features: LineFeatures): number {
  const [constant, ...weights] = LINE_WEIGHTS;
  return logistic(features.reduce((sum, x, i) => sum + x * weights[i]!, constant!));
}

/** How much of the sureness of its bars tells whether a chart fits. */
export const tellingSureness = (sure: number) => Math.min(LINE_FITS.most, sure);

/**
 * @param score how likely the chart is by its line, 0 to 1
 * @param sure how sure its bars are on the whole, 0 to 1
 */
export function lineVerdict(score: number, sure: number): "fits" | "doubtful" | "cannot be told" {
  if (score >= logistic(LINE_FITS.from - LINE_FITS.each * tellingSureness(sure))) return "fits";
  return sure < SURE ? "cannot be told" : "doubtful";
}
