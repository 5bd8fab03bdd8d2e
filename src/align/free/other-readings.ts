/**
 * What else a freely played take may be: half or twice as fast, or bars that begin on another beat. Chords tell both from
 * end to end; where there are none, or where they do not change, little does.
 */
import { bisectLeft } from "d3-array";
import { mod } from "../../pitch/index.ts";
import { positionAt } from "../../take/index.ts";
import { FREE } from "./free-model.ts";
import { chordFit, type FreelyTold, type FreeReading, freeMap, usualBeat } from "./lay-freely.ts";

export interface OtherReading {
  /** Beats of it in one of the reading that was chosen: 1, or a half or two. */
  readonly pace: number;
  /** Beats by which its bars begin later. */
  readonly later: number;
  /** How likely it is, 0 to 1, beside the others and the one that was chosen. */
  readonly share: number;
}

export interface OtherReadings {
  /** How likely the reading that was chosen is. */
  readonly own: number;
  /** The likeliest first. */
  readonly others: readonly OtherReading[];
}

/**
 * Nats of chords, and of signs of a bar's first beat, that make an e-fold of odds. Of 21 performances of people read with
 * their chords none had its bars on another beat from end to end where that fitted less by 49 nats or more; of nine read
 * without, at the right tempo, seven had their bars in place, and the others fitted better by 35 to 40.
 */
const CHORD_NATS = 8;
const BAR_NATS = 25;
/**
 * Beats of another reading in one of this, with how often it is the right one where nothing but the usual length of beats
 * tells: of 21 read without chords seven should have been half as fast and one twice as fast.
 */
const OCTAVES = [
  { pace: 0.5, usual: 0.5 },
  { pace: 2, usual: 0.1 },
] as const;

/** @param told what is known of the take: a told tempo has no others, and pins tell where bars begin */
export function otherReadings(reading: FreeReading, told: FreelyTold): OtherReadings {
  if (told.pins.length > 0) return { own: 1, others: [] };
  const phases = phaseOdds(reading);
  const inPhase = phases.reduce((sum, odds) => sum + odds, 0);
  const paces = (told.usual === null ? OCTAVES : []).map(({ pace, usual }) => ({
    pace,
    odds: usual * paceOdds(reading, pace),
  }));
  const whole = 1 + paces.reduce((sum, { odds }) => sum + odds, 0);
  const own = 1 / whole / inPhase;
  const others = [
    ...paces.map(({ pace, odds }) => ({ pace, later: 0, share: odds / whole })),
    ...phases.flatMap((odds, later) => (later === 0 ? [] : [{ pace: 1, later, share: own * odds }])),
  ];
  return { own, others: others.sort((one, other) => other.share - one.share) };
}

/** Odds of bars that begin so many beats later, against those that were chosen. */
function phaseOdds({ beats, firstBeat, form, moments }: FreeReading): number[] {
  const { onBar, offBar, chords, first, width } = moments;
  const at = Array.from(beats, (seconds) => bisectLeft(moments.time, seconds));
  const worth = Array.from({ length: form.bar }, (_, later) => {
    let sum = 0;
    at.forEach((i, n) => {
      const k = mod(firstBeat + n - later, form.count);
      sum += (k % form.bar === 0 ? onBar : offBar)[i]! / BAR_NATS;
      const [c, j] = [form.chordAt[k]!, at[n + 1]];
      if (c < 0 || j === undefined) return;
      sum += (chords[first[j]! * width + c]! - chords[first[i]! * width + c]!) / CHORD_NATS;
    });
    return sum;
  });
  return worth.map((nats) => Math.exp(Math.min(0, nats - worth[0]!)));
}

/** Odds of another tempo by the usual length of beats and by the chords, against the one that was chosen. */
function paceOdds(reading: FreeReading, pace: number): number {
  const length = usualBeat(reading);
  const usual = (seconds: number) => (Math.log(seconds / FREE.usual) / FREE.usualWidth) ** 2 / 2;
  const map = freeMap(reading);
  const { quarters } = reading.form;
  const fit = chordFit(reading, (seconds) => positionAt(map, seconds));
  // A little early, so that a stroke on a beat of the faster reading is not taken for one before it.
  const other = chordFit(reading, (seconds) => pace * (positionAt(map, seconds) + 1e-6 * quarters));
  const chords = (reading.moments.strokes.count * (other - fit)) / CHORD_NATS;
  return Math.exp(usual(length) - usual(length / pace) + Math.min(0, chords));
}
