/** Whether a take was played to the beats of its file, where its onsets alone do not say so. */
import { GATHERED } from "./file-beats.ts";
import { type Reading, usualPace } from "./lay-line.ts";
import { logSum } from "./log-sum.ts";

/**
 * Log odds that a take was played to the file's beats, where its onsets do not gather on them so plainly that nothing else
 * need be asked. Of takes in files whose tempo somebody chose 85 in 100 are played to it, of those that a recorder gave its
 * usual tempo half [practice]; how far onsets gather, and by how many nats (no more than `most`) the beats explain the notes
 * better than all free readings, are weighed by a logistic rule: gathering as it is on a solo's own click and on idle ones,
 * the nats given the gathering (fitted half of the open solos, each by tables counted without it). Beyond `GATHERED`
 * onsets gather on idle beats for reasons of their own: of 10,062 idle grids under these solos 55 gather by so much, 15 of
 * them by 4.5, of 117 true ones 76 and 42, which is .7 and not 2.7 nats for each.
 */
const CLICK_ODDS = {
  chosen: Math.log(0.85 / 0.15),
  usual: 0,
  base: -3.4,
  gathered: 2.7,
  beyond: 0.7,
  nats: 0.7,
  most: 12,
} as const;

/**
 * @param gathered how strongly onsets gather on the beats (`gathering`)
 * @param freely readings at tempos of their own; none where nothing else explains the take
 * @param chosen whether somebody chose the file's tempo
 */
export function clickOdds(
  gathered: number,
  onGrid: Reading,
  freely: readonly Reading[],
  chosen: boolean,
): number {
  const { base, gathered: byGathering, beyond, nats, most } = CLICK_ODDS;
  const lead = onGrid.evidence - logSum(freely.map(({ evidence, pace }) => evidence + usualPace(pace)));
  const told = freely.length === 0 ? most : Math.max(-most, Math.min(most, lead));
  const plain = byGathering * Math.min(GATHERED, gathered) + beyond * Math.max(0, gathered - GATHERED);
  return (chosen ? CLICK_ODDS.chosen : CLICK_ODDS.usual) + base + plain + nats * told;
}

/**
 * Log odds from which a click is taken for one: two to one. On its own click nine in ten notes of a solo are in their bars,
 * on an idle one none, read freely six in ten either way (fitted half).
 */
export const CLICK_FROM = Math.log(2);

/** A reading with the doubt about it in its sureness. */
export function held(reading: Reading, share: number): Reading {
  return { ...reading, share: reading.share * share, sure: reading.sure.map((sure) => sure * share) };
}
