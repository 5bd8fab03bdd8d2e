/** Key signatures: sharps count up, flats down, 0 to 7 of either. */
import { fifthsOf, nameAt, placeFrom } from "./line-of-fifths.ts";
import { nameOfStep } from "./name.ts";

/** What names a key. */
export interface KeyName {
  readonly tonic: string;
  readonly mode: "major" | "minor";
}

/** Fifths from the tonic of a major key up to that of the minor key with the same signature. */
const RELATIVE_MINOR = 3;

/**
 * Sharps (positive) or flats (negative) of a key's signature; more than seven where nobody would sign it.
 * @example signatureOf({ tonic: "Eb", mode: "major" }) // -3
 */
export function signatureOf(key: KeyName): number {
  return fifthsOf(key.tonic) - (key.mode === "minor" ? RELATIVE_MINOR : 0);
}

/**
 * The tonic of the key with a signature.
 * @param fifths -7 (seven flats) to 7 (seven sharps)
 * @example tonicOf(-3, "minor") // "C"
 */
export function tonicOf(fifths: number, mode: KeyName["mode"]): string {
  return nameAt(fifths + (mode === "minor" ? RELATIVE_MINOR : 0));
}

/**
 * What a signature does to the letter of a step of the staff (0 is C): 1 raised, -1 lowered, 0 left.
 * @example alterInSignature(6, -1) // -1: one flat makes B flat
 */
export function alterInSignature(step: number, fifths: number): number {
  // The letters that a signature leaves alone are the seven from F to B moved by its fifths.
  const place = fifthsOf(nameOfStep(step, 0));
  if (fifths > 0) return place + 1 < fifths ? 1 : 0;
  return 5 - place < -fifths ? -1 : 0;
}

/** Change in sharps of a signature when music is moved by so many semitones: -2 for a whole step down. */
export function signatureMovedBy(semitones: number): number {
  return placeFrom(-5, semitones);
}
