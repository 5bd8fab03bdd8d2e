/** Beats and degrees in words, as the sentence of a note says them. */
import { degreeName } from "../chart/index.ts";
import type { Degree, Meter, Quality } from "../chart/types.ts";
import { fifthsOf, mod12 } from "../pitch/index.ts";
import type { HarmonicRole } from "./roles.ts";
import { isCompound } from "./strength.ts";

const ORDINALS = ["first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth"];

/**
 * A beat of the bar in words, with its preposition left out; null (rubato) gives "".
 * @example beatInWords(2.5, { beats: 4, unit: 4 }) // "the and of 2"
 * @example beatInWords(5, { beats: 6, unit: 8 }) // "eighth 5"
 */
export function beatInWords(beat: number | null, meter: Meter): string {
  if (beat === null) return "";
  if (isCompound(meter)) return compoundBeat(beat);
  const whole = Math.floor(beat + NEAR);
  const part = beat - whole;
  if (part < NEAR) return `beat ${whole}`;
  if (near(part, 1 / 2)) return `the and of ${whole}`;
  const thirds = Math.round(part * 3);
  if (near(part * 3, thirds)) return `the ${thirds === 1 ? "second" : "last"} triplet of ${whole}`;
  for (const [parts, name] of [
    [4, "sixteenth"],
    [6, "sextuplet"],
    [8, "thirty-second"],
    [5, "quintuplet"],
  ] as const) {
    const at = Math.round(part * parts);
    if (near(part * parts, at)) return `the ${at === parts - 1 ? "last" : ORDINALS[at]} ${name} of ${whole}`;
  }
  return part < 0.5 ? `just after beat ${whole}` : `late in beat ${whole}`;
}

/** In 6/8, 9/8 and 12/8 the written unit is counted, since the beat is three of it: "eighth 5", "the and of eighth 5". */
function compoundBeat(beat: number): string {
  const whole = Math.floor(beat + NEAR);
  const part = beat - whole;
  if (part < NEAR) return (whole - 1) % 3 === 0 ? `main beat ${(whole - 1) / 3 + 1}` : `eighth ${whole}`;
  if (near(part, 1 / 2)) return `the and of eighth ${whole}`;
  return `just after eighth ${whole}`;
}

/** What a third is called where the number alone would mislead: the fourth of a sus chord, the third of a minor one. */
const THIRD_WORDS: Partial<Record<Degree, string>> = { b3: "third", "11": "fourth", "9": "second" };

/** What a foreign note is above the root, by steps on the line of fifths: its spelling tells a flat fifth from a sharp eleventh. */
const FOREIGN_WORDS: Readonly<Record<number, string>> = {
  [-6]: "flat fifth",
  [-5]: "flat ninth",
  [-4]: "flat thirteenth",
  [-3]: "minor third",
  [-2]: "minor seventh",
  [-1]: "fourth",
  1: "perfect fifth",
  2: "ninth",
  3: "sixth",
  4: "major third",
  5: "major seventh",
  6: "sharp eleventh",
  8: "raised fifth",
  9: "sharp ninth",
};

/**
 * What a note foreign to a chord is above its root, as it is spelled, without article; null where no usual name fits.
 * @example foreignInWords("F#4", "C") // "sharp eleventh"
 * @example foreignInWords("C#4", "C") // null: no degree is called so
 */
export function foreignInWords(spelling: string, root: string): string | null {
  return FOREIGN_WORDS[fifthsOf(spelling) - fifthsOf(root)] ?? null;
}

/** Half steps from the nearest tone that any chord has, its root or its fifth. */
const FROM_A_TONE = [
  "an octave above the root",
  "a half step above the root",
  "a whole step above the root",
  "three half steps above the root",
  "four half steps above the root",
  "a whole step below the fifth",
  "a half step below the fifth",
  "on the fifth",
  "a half step above the fifth",
  "a whole step above the fifth",
  "a whole step below the root",
  "a half step below the root",
] as const;

/**
 * Where a note lies that is written on another letter than its degree: a distance names no letter.
 * @example distanceInWords(1) // "a half step above the root": C sharp over C, on its way to D
 */
export function distanceInWords(semitones: number): string {
  return FROM_A_TONE[mod12(semitones)]!;
}

/**
 * The degree of a note in words, without article.
 * @example degreeInWords("b3", "blue", null) // "blue third"
 * @example degreeInWords("11", "avoid", "dominant") // "fourth"
 */
export function degreeInWords(degree: Degree, role: HarmonicRole | null, quality: Quality | null): string {
  if (role === "blue") return degree === "b3" ? "blue third" : "blue fifth";
  if (role === "avoid" && degree === "11") return "fourth";
  if (quality === "diminished-seventh" && degree === "6") return "diminished seventh";
  return (role === "third" ? THIRD_WORDS[degree] : undefined) ?? degreeName(degree);
}

const NEAR = 0.02;

function near(a: number, b: number): boolean {
  return Math.abs(a - b) < NEAR;
}
