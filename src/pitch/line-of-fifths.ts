/**
 * Names as places on the line of fifths: ... Eb -3, Bb -2, F -1, C 0, G 1, D 2 ... On it a name is one number, an
 * interval is a difference, and enharmonic twins lie twelve apart. Source: Temperley, The Cognition of Basic Musical
 * Structures, 2001 [memory].
 */
import { pitch as atPlace, coordinates } from "tonal";
import { nameOfStep, partsOf, withOctave } from "./name.ts";
import { mod12 } from "./pitch-class.ts";

/** Place of a name on the line of fifths; sharps count up, flats down ("Eb" -3, "F##" 13). An octave is passed over. */
export function fifthsOf(name: string): number {
  const { step, alter } = partsOf(name);
  return coordinates({ step, alt: alter })[0];
}

/** Sharps (positive) or flats (negative) of the name at a place. */
export function accidentalOf(fifths: number): number {
  return atPlace([fifths]).alt;
}

/** @example nameAt(-3) // "Eb" */
export function nameAt(fifths: number): string {
  const { step, alt } = atPlace([fifths]);
  return nameOfStep(step, alt);
}

/**
 * The name of a MIDI pitch at a place, with its octave (middle C is C4).
 * @example pitchNameAt(63, -3) // "Eb4"
 */
export function pitchNameAt(pitch: number, fifths: number): string {
  return withOctave(nameAt(fifths), pitch);
}

/** The place of a pitch class that lies nearest to `centre`; of two equally near ones the lower (flat) one. */
export function nearestTo(pitchClass: number, centre: number): number {
  const base = (pitchClass * 7) % 12;
  return base + 12 * Math.ceil((centre - base) / 12 - 0.5);
}

/** The place of a pitch class among the twelve from `lowest` up: twelve neighbours name each class once. */
export function placeFrom(lowest: number, pitchClass: number): number {
  return lowest + mod12(7 * pitchClass - lowest);
}
