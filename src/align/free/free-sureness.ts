/** How sure the bars of a free reading are. */
import { mean } from "d3-array";
import { logistic } from "../../statistics/logistic.ts";
import { type FreeReading, firstOf } from "./lay-freely.ts";

/**
 * A logistic rule: log odds of how likely the beats of a bar and of its neighbours are met, and a little of the whole take,
 * some of which are laid well from end to end. Fitted on performances of people that were read by tables of other
 * composers, each composer left out in turn: of bars said to be .95 sure .94 are right within half a beat, of .85 .87, of
 * .75 .76, of .65 .64, of .55 .52, of .45 .39, of .36 .39; below, where few are, more are right than is said. A take that
 * lies badly tells little of others: with a weight of 1 for it bars of left-out pieces were missed by .13.
 */
const SURE = { base: -0.05, share: 0.9, take: 0.2, most: 0.97 } as const;
/** Shares nearer to none and all are taken for these. */
const NEAREST = 0.01;

/**
 * @param byChords whether chords are heard: without any a bar lies right where its beats are met, if the tempo and the first
 *   beat of bars are right (`otherReadings`), and no place in a form can be lost
 * @returns how sure a bar is, 0 to 1, by its number from the form's first
 */
export function freeSureness(reading: FreeReading, byChords: boolean): (bar: number) => number {
  const { shares, form } = reading;
  const first = firstOf(reading);
  const take = SURE.base + SURE.take * logOdds(mean(shares)!);
  return (bar) => {
    const at = bar * form.bar - first;
    const from = Math.max(0, Math.min(shares.length - 1, at - form.bar));
    const around = mean(shares.subarray(from, Math.max(from + 1, at + 2 * form.bar)))!;
    const sure = byChords ? logistic(take + SURE.share * logOdds(around)) : around;
    return Math.min(SURE.most, sure);
  };
}

function logOdds(share: number): number {
  const within = Math.max(NEAREST, Math.min(1 - NEAREST, share));
  return Math.log(within / (1 - within));
}
