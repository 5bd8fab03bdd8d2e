/**
 * Names of notes as places on the line of fifths: ... Eb -3, Bb -2, F -1, C 0, G 1, D 2 ... On it a name is one
 * number, an interval is a difference, and enharmonic twins lie twelve apart. Source: Temperley, The Cognition of
 * Basic Musical Structures, 2001 [memory].
 */
import type { Degree, Key } from "../chart/types.ts";

const LETTERS = "FCGDAEB";
const NATURALS: Readonly<Record<string, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };

/** Place of a name on the line of fifths; sharps count up, flats down ("Eb" -3, "F##" 13). An octave is passed over. */
export function fifthsOf(name: string): number {
  let place = LETTERS.indexOf(name.charAt(0)) - 1;
  for (let i = 1; i < name.length; i++) {
    if (name[i] === "#") place += 7;
    else if (name[i] === "b") place -= 7;
  }
  return place;
}

/** Sharps (positive) or flats (negative) of a place on the line of fifths. */
export function accidentalOf(fifths: number): number {
  return Math.floor((fifths + 1) / 7);
}

/** The name of a MIDI pitch at a place on the line of fifths, with its octave (middle C is C4). */
export function nameOf(pitch: number, fifths: number): string {
  const accidental = accidentalOf(fifths);
  const letter = LETTERS[fifths + 1 - 7 * accidental]!;
  const mark = accidental < 0 ? "b".repeat(-accidental) : "#".repeat(accidental);
  const octave = (pitch - accidental - NATURALS[letter]!) / 12 - 1;
  return `${letter}${mark}${octave}`;
}

/** Place of the key's tonic, and of its signature (0 = no sharps or flats). */
export function signatureOf(key: Key): number {
  return fifthsOf(key.tonic) - (key.mode === "minor" ? 3 : 0);
}

/** The place of a pitch class that lies nearest to `centre`; of two equally near ones the lower (flat) one. */
export function nearestTo(pitchClass: number, centre: number): number {
  const base = (pitchClass * 7) % 12;
  return base + 12 * Math.ceil((centre - base) / 12 - 0.5);
}

/** Steps on the line of fifths from a root to its degrees. */
export const DEGREE_FIFTHS: Readonly<Record<Degree, number>> = {
  "1": 0,
  b9: -5,
  "9": 2,
  "#9": 9,
  b3: -3,
  "3": 4,
  "11": -1,
  "#11": 6,
  b5: -6,
  "5": 1,
  "#5": 8,
  b13: -4,
  "13": 3,
  "6": 3,
  b7: -2,
  "7": 5,
};
