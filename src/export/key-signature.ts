import type { Key } from "../chart/index.ts";

const LINE_OF_FIFTHS = "FCGDAEB";

/**
 * Accidentals of a key's signature: sharps positive, flats negative.
 *
 * @example fifthsOf({ tonic: "Eb", tonicClass: 3, mode: "major" }) // -3
 */
export function fifthsOf(key: Key): number {
  const letter = LINE_OF_FIFTHS.indexOf(key.tonic.charAt(0)) - 1;
  const accidental = key.tonic.endsWith("b") ? -7 : key.tonic.endsWith("#") ? 7 : 0;
  return letter + accidental - (key.mode === "minor" ? 3 : 0);
}
