import { classOf, signatureOf, tonicOf, usualTonic } from "../pitch/index.ts";
import { Problem } from "../take/index.ts";
import type { Chart, ChartBar, Key } from "./types.ts";

const KEY = /^([A-Ga-g])([b#♭♯]?)\s{0,9}(?:(minor|min|m|-)|major|maj)?$/;

/**
 * Reads a key: a letter, an accidental, and a mode ("major" when nothing is said).
 *
 * Throws `Problem("not-a-key")`.
 * @example parseKey("Eb") // { tonic: "Eb", tonicClass: 3, mode: "major" }
 * @example parseKey("F# minor") // { tonic: "F#", tonicClass: 6, mode: "minor" }
 */
export function parseKey(text: string): Key {
  const match = KEY.exec(text.trim());
  if (match === null) {
    throw new Problem(
      "not-a-key",
      `"${text.slice(0, 20)}" is not a key`,
      null,
      'Write a letter A to G, b or # if needed, and "m" or "minor" for a minor key: F, Bb, C#m, G minor.',
    );
  }
  const accidental = match[2]!.replace("♭", "b").replace("♯", "#");
  const tonic = match[1]!.toUpperCase() + accidental;
  const mode = match[3] === undefined ? "major" : "minor";
  return { tonic, tonicClass: classOf(tonic), mode };
}

/**
 * @example keyName({ tonic: "C", tonicClass: 0, mode: "minor" }) // "Cm"
 */
export function keyName(key: Key): string {
  return key.mode === "minor" ? `${key.tonic}m` : key.tonic;
}

/** True for the same tonic, by its name, in the same mode. */
export function isKey(one: Key | null, other: Key): boolean {
  return one !== null && one.tonic === other.tonic && one.mode === other.mode;
}

/** The key in which a bar of the chart stands. */
export function keyInBar(chart: Chart, bar: ChartBar): Key {
  return bar.key ?? chart.key;
}

/**
 * The key of a signature.
 * @param fifths -7 (seven flats) to 7 (seven sharps)
 * @example keyOfSignature(-3, "minor") // C minor
 */
export function keyOfSignature(fifths: number, mode: Key["mode"]): Key {
  const tonic = tonicOf(fifths, mode);
  return { tonic, tonicClass: classOf(tonic), mode };
}

/** Signatures with more than seven accidentals are not printed. */
const MOST_ACCIDENTALS = 7;

/**
 * The key as it is signed: where its signature would need more than seven accidentals, its enharmonic neighbour.
 * @example usualKey(parseKey("Dbm")) // C# minor
 * @example usualKey(parseKey("G#")) // Ab major
 */
export function usualKey(key: Key): Key {
  const fifths = signatureOf(key);
  if (Math.abs(fifths) <= MOST_ACCIDENTALS) return key;
  return keyOfSignature(fifths - 12 * Math.sign(fifths), key.mode);
}

/**
 * The key on a pitch class as it is usually signed.
 * @example keyOn(1, "minor") // C# minor
 */
export function keyOn(tonicClass: number, mode: Key["mode"]): Key {
  return { tonic: usualTonic(tonicClass, mode), tonicClass, mode };
}
