/** Whether a chart is the one that was played, by the hand that comps. */
import { type Chart, keyName, keyOn } from "../chart/index.ts";
import { logistic } from "../statistics/logistic.ts";

/**
 * What the comping hand says, which plays the chords themselves: a chart is sure where nearly all of its notes are
 * named in the chords and no other key comes near, and is another one where another key does better. [practice; on
 * the demo class right charts give .81 and more, wrong forms and keys at most .75]
 */
const COMPING = { share: 0.75, margin: 0.15, sure: 0.97, wrong: 0.03 } as const;

/**
 * Between the two: the constant, and what the features of a hand that comps are worth, learned by
 * `npm run report -- given-charts 36 teach two-handed`. The line by itself does not decide: one that was laid on another
 * tune's chart, where that fits it best, looks like its own in one of five. Of pieces for both hands the figures of an
 * accompaniment name fewer chord tones, by which a third of those that lie well would be doubted; they are learned from.
 */
export const COMPING_WEIGHTS: readonly number[] = [-11.079, 13.158, 9.789, 0.462];

/** However sure the places of a line are, they speak with no more than this (log odds). */
const MOST_ODDS = 8;
export const heldOdds = (odds: number) => Math.max(-MOST_ODDS, Math.min(MOST_ODDS, odds));

/** Share of chord tones among the comping hand's notes; that over the best other key's; log odds by the line. */
export type CompingFeatures = readonly [number, number, number];

/**
 * The key in which the comping hand plays the chart, where it is clear and not the given one.
 *
 * @param chordTones share of them among that hand's notes, with the chart raised by 0 to 11 half steps
 */
export function keyOfComping(chordTones: readonly number[], chart: Chart) {
  const best = chordTones.indexOf(Math.max(...chordTones));
  if (best === 0 || chordTones[best]! < COMPING.share) return [];
  const key = keyName(keyOn((chart.key.tonicClass + best) % 12, chart.key.mode));
  return [{ chart: null, key, score: COMPING.sure }];
}

/** How likely the chart is where a hand comps, 0 to 1. */
export function byComping(features: CompingFeatures): number {
  const [share, margin] = features;
  if (share >= COMPING.share && margin >= COMPING.margin) return COMPING.sure;
  if (margin < 0) return COMPING.wrong;
  const [constant, ...weights] = COMPING_WEIGHTS;
  return logistic(features.reduce((sum, x, i) => sum + x * weights[i]!, constant!));
}

/**
 * @param chordTones share of them among that hand's notes, with the chart raised by 0 to 11 half steps
 * @param odds log odds of the chart by the line; 0 where it has too few notes to say anything
 */
export function compingFeatures(chordTones: readonly number[], odds: number): CompingFeatures {
  const [given = 0, ...others] = chordTones;
  return [given, given - Math.max(...others), heldOdds(odds)];
}
