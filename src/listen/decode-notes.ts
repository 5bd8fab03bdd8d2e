/**
 * From the network's probabilities to notes. For each key: onsets are peaks of the onset probability, placed between
 * frames; a note lasts while its key is more likely to sound than not, at most to the next strike of the key. What is
 * a likely trap is named: an octave ghost, a re-strike.
 */
import { certaintyOf } from "./certainty.ts";
import type { Doubt, HeardNote } from "./heard.ts";
import { KEYS, type KeptKeys, type Peak } from "./keys-heard.ts";
import { FRAMES_A_SECOND } from "./spectrum.ts";

/** MIDI number of the lowest key. */
export const LOWEST_KEY = 21;

export const DECODING = {
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
export function notesOf(kept: KeptKeys): HeardNote[] {
  const strikes: Strike[] = [];
  for (let key = 0; key < KEYS; key++) strikes.push(...strikesOf(kept, key));
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

function strikesOf(kept: KeptKeys, key: number): Strike[] {
  const apart = DECODING.apart * FRAMES_A_SECOND;
  const peaks: Peak[] = [];
  for (const peak of kept.peaksOf(key)) {
    const last = peaks.at(-1);
    if (last === undefined || peak.frame - last.frame >= apart) peaks.push(peak);
    else if (peak.height > last.height) peaks[peaks.length - 1] = peak;
  }
  const sounds = (t: number) => kept.sounds(key, t);
  return peaks.map(({ frame: t, at, height, loudness }, i) => {
    const before = peaks[i - 1]?.frame;
    const silence = endOf(sounds, t, peaks[i + 1]?.frame ?? kept.frames);
    const restruck =
      before !== undefined &&
      t - before < DECODING.restrike * FRAMES_A_SECOND &&
      endOf(sounds, before, t) >= t;
    return {
      key,
      at,
      end: Math.max(silence, at + DECODING.shortest * FRAMES_A_SECOND),
      peak: height,
      loudness,
      doubt: restruck ? "re-strike" : null,
    };
  });
}

/** Frames after its strike in which a key has begun to sound; the hammer's noise may hide its first ones. */
const BEGUN = 3;

/** First frame from the strike on at which the key is silent; the next strike when it never is. */
function endOf(sounds: (frame: number) => boolean, from: number, next: number): number {
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
