/** Intervals in English: how far two notes lie apart, and how far a line moves. */
import { countInWords } from "./numbers.ts";

const WITHIN_OCTAVE = [
  "",
  "a half step",
  "a whole step",
  "a minor third",
  "a third",
  "a fourth",
  "a tritone",
  "a fifth",
  "a minor sixth",
  "a sixth",
  "a minor seventh",
  "a major seventh",
] as const;

/**
 * How wide something is, in semitones: minor and major are told apart.
 * @example intervalInWords(28) // "two octaves and a third"
 */
export function intervalInWords(semitones: number): string {
  const whole = Math.round(semitones);
  const octaves = Math.floor(whole / 12);
  const rest = WITHIN_OCTAVE[whole % 12]!;
  if (octaves === 0) return rest === "" ? "one note" : rest;
  const octaveWords = octaves === 1 ? "an octave" : `${countInWords(octaves)} octaves`;
  return rest === "" ? octaveWords : `${octaveWords} and ${rest}`;
}

/** Melodic intervals by semitones, up to the octave: what is heard, whatever the spelling. */
const MELODIC = [
  "the same note",
  "a half step",
  "a whole step",
  "a third",
  "a third",
  "a fourth",
  "a tritone",
  "a fifth",
  "a sixth",
  "a sixth",
  "a seventh",
  "a seventh",
  "an octave",
] as const;

/**
 * How far a line moves, up or down: a third is a third to the ear, whatever its size.
 * @example stepInWords(-4) // "a third"
 */
export function stepInWords(semitones: number): string {
  return MELODIC[Math.abs(semitones)] ?? "more than an octave";
}
