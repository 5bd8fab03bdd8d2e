/** Degrees and the letters that they are written on. */
import type { Degree } from "../chart/types.ts";
import { accidentalOf, fifthsOf } from "../pitch/index.ts";

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

/** Degrees of one key of the keyboard under two names: which one is meant is told by the letter. */
const TWINS: Partial<Record<Degree, Degree>> = {
  "#9": "b3",
  b3: "#9",
  "#11": "b5",
  b5: "#11",
  b13: "#5",
  "#5": "b13",
};

/**
 * The degree of a note that no chord names, as it is written: the note between fourth and fifth is #11 as F sharp and
 * b5 as G flat over C. The degree given where neither name is the written one.
 */
export function degreeAsWritten(degree: Degree, name: string, root: string): Degree {
  const written = fifthsOf(name) - fifthsOf(root);
  const twin = TWINS[degree];
  return twin !== undefined && DEGREE_FIFTHS[twin] === written ? twin : degree;
}

/**
 * True when a note is written on the letter of its degree, or on that letter's twin because the degree would take a
 * double accidental: E double flat is written D.
 */
export function isWrittenAs(degree: Degree, name: string, root: string): boolean {
  const place = fifthsOf(root) + DEGREE_FIFTHS[degree];
  return fifthsOf(name) === place || Math.abs(accidentalOf(place)) > 1;
}
