/**
 * Names of pitches and of pitch classes: a capital letter, its accidentals ("b" or "#", as many as it takes) and, for
 * a pitch, its octave; middle C is C4. Only those functions of `tonal` are used that keep no cache, since names may
 * come from a user's file.
 */
import { chroma, stepToLetter } from "tonal";
import { mod12 } from "./pitch-class.ts";

export interface NameParts {
  /** "A" to "G". */
  readonly letter: string;
  /** Steps of the staff from C to the letter, 0 to 6. */
  readonly step: number;
  /** Semitones by which the accidentals raise (#) or lower (b) the letter. */
  readonly alter: number;
  /** Null in the name of a pitch class. */
  readonly octave: number | null;
}

const NAME = /^([A-G])(b*|#*)(-?\d+)?$/;

/**
 * A name taken apart.
 * @throws RangeError when the text is no name like "Eb4" or "Eb".
 * @example partsOf("Eb4") // { letter: "E", step: 2, alter: -1, octave: 4 }
 */
export function partsOf(name: string): NameParts {
  const found = NAME.exec(name);
  if (found === null)
    throw new RangeError(`"${name}" is no name of a pitch; expected one like "Eb4" or "Eb"`);
  const [, letter, signs, octave] = found;
  return {
    letter: letter!,
    // C is the third letter of the alphabet: seven letters on from there.
    step: (letter!.charCodeAt(0) - "C".charCodeAt(0) + 7) % 7,
    alter: signs!.startsWith("b") ? -signs!.length : signs!.length,
    octave: octave === undefined ? null : Number(octave),
  };
}

/** @example nameOfStep(2, -1) // "Eb" */
export function nameOfStep(step: number, alter: number): string {
  return stepToLetter(step) + (alter < 0 ? "b" : "#").repeat(Math.abs(alter));
}

/** Steps of the staff from C to the name's letter, 0 to 6. */
export function stepOf(name: string): number {
  return partsOf(name).step;
}

/** Semitones by which the accidentals of the name raise (#) or lower (b) its letter. */
export function alterOf(name: string): number {
  return partsOf(name).alter;
}

/**
 * Pitch class of a name; an octave is passed over.
 * @example classOf("Eb") // 3
 * @example classOf("Cb") // 11
 */
export function classOf(name: string): number {
  const { step, alter } = partsOf(name);
  return mod12(naturalClass(step) + alter);
}

/** Semitones from C up to the letter of a step of the staff, 0 to 11. */
export function naturalClass(step: number): number {
  return chroma({ step, alt: 0 });
}

/** The pitch class as it is written on a step of the staff (0 is C), with as many accidentals as it takes. */
export function nameOnStep(step: number, pitchClass: number): string {
  return nameOfStep(step, mod12(pitchClass - naturalClass(step) + 6) - 6);
}

/**
 * The name of a pitch, from the name of its pitch class.
 * @param name without octave; it must be a name of that pitch
 * @example withOctave("Cb", 59) // "Cb4": its letter stands in the octave of middle C
 */
export function withOctave(name: string, pitch: number): string {
  const { step, alter } = partsOf(name);
  return `${name}${(pitch - alter - naturalClass(step)) / 12 - 1}`;
}
