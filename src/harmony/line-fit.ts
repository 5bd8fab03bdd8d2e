/** Whether a chart is the one that was played, by a line alone. */
import { logistic } from "../statistics/logistic.ts";
import { heldOdds } from "./comping-fit.ts";

/**
 * From `fits` on a chart is said to fit a line alone: a wrong one is laid where it fits best as well. Of the fitted half,
 * each solo weighed without itself, with its tempo told and on a click, 28 and 19 wrong charts in a thousand reach .65, and
 * 8 and 6 right ones in a hundred do not; .5 is reached by 50 wrong ones, .8 is missed by 9 to 13 right ones.
 *
 * Where bars are less sure than `sure`, as likely wrong as right, the notes are not held against their own chords: it
 * cannot be told whether the chart fits. Of wrong charts that would be said to fit four in ten are laid so on the whole,
 * and 8 and 3 right ones in a hundred; what is left are 17 and 13 wrong ones in a thousand.
 */
export const LINE_LIMITS = { fits: 0.65, sure: 0.5 } as const;

/**
 * The constant, and what the features of a line alone are worth, learned by `npm run report -- given-charts 200 teach told
 * click` with tables of lines that were counted without the solo.
 */
export const LINE_WEIGHTS: readonly number[] = [-0.908, 0.845, 0.87];

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
