/** Scales as data: semitones above the root, rising from 0. */
import { Problem } from "../take/index.ts";

export interface Scale {
  readonly name: string;
  readonly tones: readonly number[];
}

/** The scales of chord-scale practice, and those that players choose by hand. */
export const SCALES = [
  { name: "Ionian", tones: [0, 2, 4, 5, 7, 9, 11] },
  { name: "Dorian", tones: [0, 2, 3, 5, 7, 9, 10] },
  { name: "Phrygian", tones: [0, 1, 3, 5, 7, 8, 10] },
  { name: "Lydian", tones: [0, 2, 4, 6, 7, 9, 11] },
  { name: "Mixolydian", tones: [0, 2, 4, 5, 7, 9, 10] },
  { name: "Aeolian", tones: [0, 2, 3, 5, 7, 8, 10] },
  { name: "Locrian", tones: [0, 1, 3, 5, 6, 8, 10] },
  { name: "Locrian natural 9", tones: [0, 2, 3, 5, 6, 8, 10] },
  { name: "Mixolydian b13", tones: [0, 2, 4, 5, 7, 8, 10] },
  { name: "Mixolydian b9 b13", tones: [0, 1, 4, 5, 7, 8, 10] },
  { name: "Lydian b7", tones: [0, 2, 4, 6, 7, 9, 10] },
  { name: "altered", tones: [0, 1, 3, 4, 6, 8, 10] },
  { name: "half-whole", tones: [0, 1, 3, 4, 6, 7, 9, 10] },
  { name: "whole-half", tones: [0, 2, 3, 5, 6, 8, 9, 11] },
  { name: "whole tone", tones: [0, 2, 4, 6, 8, 10] },
  { name: "melodic minor", tones: [0, 2, 3, 5, 7, 9, 11] },
  { name: "harmonic minor", tones: [0, 2, 3, 5, 7, 8, 11] },
  { name: "Lydian augmented", tones: [0, 2, 4, 6, 8, 9, 11] },
  { name: "major pentatonic", tones: [0, 2, 4, 7, 9] },
  { name: "minor pentatonic", tones: [0, 3, 5, 7, 10] },
  { name: "blues", tones: [0, 3, 5, 6, 7, 10] },
] as const satisfies readonly Scale[];

export type ScaleName = (typeof SCALES)[number]["name"];

const BY_NAME: ReadonlyMap<string, Scale> = new Map(SCALES.map((scale) => [scale.name.toLowerCase(), scale]));

/**
 * A scale by its name, forgiving of case and of spaces around it.
 *
 * Throws `Problem("not-a-scale")` that lists the names.
 * @example scaleNamed("lydian b7").tones // [0, 2, 4, 6, 7, 9, 10]
 */
export function scaleNamed(name: string): Scale {
  const scale = BY_NAME.get(name.trim().toLowerCase().replaceAll("♭", "b"));
  if (scale === undefined) {
    throw new Problem(
      "not-a-scale",
      `"${name.slice(0, 60)}" is not a scale`,
      null,
      `Write one of: ${SCALES.map((known) => known.name).join(", ")}.`,
    );
  }
  return scale;
}
