import { NO_STEP } from "./near.ts";

/**
 * The second null model of a melody: a first-order Markov chain of pitches rather than of intervals. A line that
 * rocks between two keys, or falls the same way from the same note, repeats its intervals without having an idea;
 * only a chain of pitches knows that.
 */
export interface PitchModel {
  /** Chance that the line, from a random note on, plays these intervals at any pitch, but for what is unheard. */
  chanceOf(intervals: readonly number[], unheard: readonly number[]): number;
}

/** Weight, in notes, of the chain-free pitches behind the chain. */
const PRIOR = 2;

/**
 * @param pitches MIDI numbers of the line
 * @param steps semitones from each place to the next, `NO_STEP` across a breath
 */
export function pitchModel(pitches: Uint8Array, steps: Int32Array): PitchModel {
  const single = new Float64Array(128);
  const followed = new Float64Array(128);
  const pairs = new Float64Array(128 * 128);
  for (let i = 0; i < pitches.length; i++) {
    const a = pitches[i]!;
    single[a]!++;
    if (i >= steps.length || steps[i] === NO_STEP) continue;
    followed[a]!++;
    pairs[a * 128 + pitches[i + 1]!]!++;
  }
  const states = [...single.keys()].filter((pitch) => single[pitch]! > 0);
  const total = Math.max(1, pitches.length);
  return {
    chanceOf(intervals, unheard) {
      const lostPairs = new Map<number, number>();
      const lostFirsts = new Map<number, number>();
      for (const start of unheard) {
        for (let k = 0; k < intervals.length; k++) {
          const [a, b] = [pitches[start + k]!, pitches[start + k + 1]!];
          lostPairs.set(a * 128 + b, (lostPairs.get(a * 128 + b) ?? 0) + 1);
          lostFirsts.set(a, (lostFirsts.get(a) ?? 0) + 1);
        }
      }
      let chance = 0;
      for (const first of states) {
        let path = single[first]! / total;
        let a = first;
        for (let k = 0; k < intervals.length && path > 0; k++) {
          const b = a + intervals[k]!;
          if (b < 0 || b > 127) path = 0;
          else {
            const pair = Math.max(0, pairs[a * 128 + b]! - (lostPairs.get(a * 128 + b) ?? 0));
            const from = Math.max(pair, followed[a]! - (lostFirsts.get(a) ?? 0));
            path *= (pair + (PRIOR * (single[b]! + 0.5)) / (total + 64)) / (from + PRIOR);
            a = b;
          }
        }
        chance += path;
      }
      return Math.min(1, chance);
    },
  };
}
