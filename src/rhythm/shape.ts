import type { AccountPhrase } from "../account.ts";

export type PhraseShape = AccountPhrase["shape"];

/** Semitones by which a difference counts as up or down. [practice] */
const LEVEL = 1;
/** Semitones of range within which a phrase that goes nowhere is level rather than a wave. [practice] */
const NARROW = 4;

/**
 * The shape of a phrase from its first pitch, the mean of the pitches between, and its last one: an arch is higher
 * in the middle than at both ends. After Huron 1996, "The melodic arch in Western folksongs".
 *
 * @param pitches MIDI numbers in time order; at least one
 * @example phraseShape([60, 64, 67, 64, 60]) // "arch"
 */
export function phraseShape(pitches: readonly number[]): PhraseShape {
  const first = pitches[0]!;
  const last = pitches[pitches.length - 1]!;
  const middle = pitches.length > 2 ? middleOf(pitches) : (first + last) / 2;
  const to = direction(middle - first);
  const from = direction(last - middle);
  if (to > 0 && from < 0) return "arch";
  if (to < 0 && from > 0) return "valley";
  if (to + from > 0) return "rising";
  if (to + from < 0) return "falling";
  const range = Math.max(...pitches) - Math.min(...pitches);
  return range <= NARROW ? "level" : "wave";
}

/** Mean of the pitches between the first and the last. */
function middleOf(pitches: readonly number[]): number {
  let sum = 0;
  for (let i = 1; i < pitches.length - 1; i++) sum += pitches[i]!;
  return sum / (pitches.length - 2);
}

function direction(semitones: number): -1 | 0 | 1 {
  return semitones > LEVEL ? 1 : semitones < -LEVEL ? -1 : 0;
}
