/**
 * From the network's probabilities to notes. For each key: onsets are peaks of the onset probability, placed between
 * frames; a note lasts while its key is more likely to sound than not, at most to the next strike of the key. What is
 * a likely trap is named: an octave ghost, a re-strike.
 */
import { certaintyOf } from "./certainty.ts";
import type { Doubt, HeardNote } from "./heard.ts";
import { type Shares, wholeOf } from "./shares.ts";
import { FRAMES_A_SECOND } from "./spectrum.ts";

export const KEYS = 88;
/** MIDI number of the lowest key. */
export const LOWEST_KEY = 21;

/** What the network says, frame after frame, of each of the 88 keys; probabilities and loudness from 0 to 1. */
export interface KeysHeard {
  readonly frames: number;
  readonly onset: Shares;
  readonly sounding: Shares;
  readonly loudness: Shares;
}

export interface Heardness extends KeysHeard {
  /** Of the sustain pedal, one number a frame. */
  readonly pedal: Float32Array;
  /** Whose sound it is, `COMPANY_WIDTH` numbers a frame. */
  readonly company: Shares;
}

export const DECODING = {
  /** Less likely peaks are no notes. Kept low, since each note carries its certainty. */
  onset: 0.1,
  /** A note goes on while its key sounds more likely than not. */
  sounding: 0.5,
  /** Shortest note, in seconds: a hammer needs longer for its way. [practice] */
  shortest: 0.03,
  /** A strike of the same key sooner than this, in seconds, is the first one heard twice: no finger repeats so fast. [practice] */
  apart: 0.05,
  /** Strikes of one key this close are doubted where the key did not fall silent in between. */
  restrike: 0.18,
  /** Notes this close in time, in seconds, were struck together. [practice] */
  together: 0.03,
} as const;

/** Semitones from a note to its overtones that fall on keys: second, third, fourth, fifth, sixth, eighth. */
const OVERTONES: readonly number[] = [12, 19, 24, 28, 31, 36];
/** A ghost is softer than what it is an overtone of by at least this share of the loudness scale. */
const GHOST_SOFTER = 0.12;

interface Strike {
  readonly key: number;
  /** In frames, with its part. */
  readonly at: number;
  readonly end: number;
  readonly peak: number;
  readonly loudness: number;
  readonly doubt: Doubt | null;
}

/** @returns notes in order of onset, then pitch */
export function decodeNotes(heard: KeysHeard): HeardNote[] {
  const strikes: Strike[] = [];
  for (let key = 0; key < KEYS; key++) strikes.push(...strikesOf(heard, key));
  strikes.sort((a, b) => a.at - b.at || a.key - b.key);
  return nameGhosts(strikes).map(({ key, at, end, peak, loudness, doubt }) => ({
    pitch: LOWEST_KEY + key,
    onset: at / FRAMES_A_SECOND,
    end: end / FRAMES_A_SECOND,
    velocity: Math.max(1, Math.min(127, Math.round(loudness * 127))),
    certainty: certaintyOf(peak, doubt),
    doubt,
  }));
}

function strikesOf({ frames, onset, sounding, loudness }: KeysHeard, key: number): Strike[] {
  const apart = DECODING.apart * FRAMES_A_SECOND;
  const whole = wholeOf(onset);
  const peaks: number[] = [];
  for (let t = 0; t < frames; t++) {
    const p = onset[t * KEYS + key]!;
    if (p < DECODING.onset * whole) continue;
    if (p < (onset[(t - 1) * KEYS + key] ?? 0) || p <= (onset[(t + 1) * KEYS + key] ?? 0)) continue;
    const last = peaks.at(-1);
    if (last === undefined || t - last >= apart) peaks.push(t);
    else if (p > onset[last * KEYS + key]!) peaks[peaks.length - 1] = t;
  }
  return peaks.map((t, i) => {
    const next = peaks[i + 1] ?? frames;
    const before = peaks[i - 1];
    const at = placeOf(onset, frames, key, t);
    const silence = endOf(sounding, key, t, next);
    const restruck =
      before !== undefined &&
      t - before < DECODING.restrike * FRAMES_A_SECOND &&
      endOf(sounding, key, before, t) >= t;
    return {
      key,
      at,
      end: Math.max(silence, at + DECODING.shortest * FRAMES_A_SECOND),
      peak: onset[t * KEYS + key]! / whole,
      loudness: loudness[t * KEYS + key]! / wholeOf(loudness),
      doubt: restruck ? "re-strike" : null,
    };
  });
}

/** Frames on each side of a strike over which the network's onset rises and falls. */
const SLOPE = 3;

/** Where a peak stands between frames: the centre of the probabilities around it, as far as they fall away from it. */
function placeOf(onset: Shares, frames: number, key: number, t: number): number {
  let [moment, weight] = [0, onset[t * KEYS + key]!];
  for (const side of [-1, 1]) {
    let before = onset[t * KEYS + key]!;
    for (let d = 1; d <= SLOPE; d++) {
      const at = t + side * d;
      if (at < 0 || at >= frames) break;
      const p = onset[at * KEYS + key]!;
      if (p > before) break;
      moment += side * d * p;
      weight += p;
      before = p;
    }
  }
  return Math.max(0, t + moment / weight);
}

/** Frames after its strike in which a key has begun to sound; the hammer's noise may hide its first ones. */
const BEGUN = 3;

/** First frame from the strike on at which the key is silent; the next strike when it never is. */
function endOf(sounding: Shares, key: number, from: number, next: number): number {
  const least = DECODING.sounding * wholeOf(sounding);
  const sounds = (t: number) => sounding[t * KEYS + key]! >= least;
  let t = from;
  while (t < next && t - from <= BEGUN && !sounds(t)) t++;
  if (t < next && !sounds(t)) return from;
  while (t < next && sounds(t)) t++;
  return t;
}

/** Marks softer notes that begin with a louder one whose overtone they are, and do not outlast it. */
function nameGhosts(strikes: readonly Strike[]): Strike[] {
  const together = DECODING.together * FRAMES_A_SECOND;
  return strikes.map((strike, i) => {
    if (strike.doubt !== null) return strike;
    const ghost = (other: Strike) =>
      OVERTONES.includes(strike.key - other.key) &&
      other.peak >= strike.peak &&
      other.loudness - strike.loudness >= GHOST_SOFTER &&
      other.end >= strike.end - together;
    for (let j = i - 1; j >= 0 && strike.at - strikes[j]!.at <= together; j--)
      if (ghost(strikes[j]!)) return { ...strike, doubt: "octave ghost" };
    for (let j = i + 1; j < strikes.length && strikes[j]!.at - strike.at <= together; j++)
      if (ghost(strikes[j]!)) return { ...strike, doubt: "octave ghost" };
    return strike;
  });
}
