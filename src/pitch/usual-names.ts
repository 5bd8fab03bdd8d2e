/** The one name of the twelve that a pitch class usually gets: each way of choosing is twelve neighbours in fifths. */
import { nameAt, placeFrom } from "./line-of-fifths.ts";
import { alterOf, classOf, nameOnStep, stepOf, withOctave } from "./name.ts";
import { mod } from "./pitch-class.ts";

/** Black keys as flats (Gb to B) or as sharps (F to A#). */
const LOWEST = { flats: -6, sharps: -1 } as const;

export type BlackKeys = keyof typeof LOWEST;

/**
 * The usual name for a pitch class, black keys as flats or as sharps.
 * @example classNameOf(10, "flats") // "Bb"
 */
export function classNameOf(pitchClass: number, blackKeys: BlackKeys): string {
  return nameAt(placeFrom(LOWEST[blackKeys], pitchClass));
}

/**
 * The usual name of a key of the keyboard where no music says which; middle C is C4.
 * @example keyboardName(61, "sharps") // "C#4"
 */
export function keyboardName(pitch: number, blackKeys: BlackKeys): string {
  return withOctave(classNameOf(pitch, blackKeys), pitch);
}

/**
 * Keys are signed with the fewest accidentals: major keys from Db to F#, minor ones from Eb to G#. Of the two with
 * six, F# major and Eb minor [practice].
 */
const LOWEST_TONIC = { major: -5, minor: -3 } as const;

/**
 * The tonic of the key on a pitch class as it is usually signed.
 * @example usualTonic(1, "minor") // "C#"
 */
export function usualTonic(tonicClass: number, mode: "major" | "minor"): string {
  return nameAt(placeFrom(LOWEST_TONIC[mode], tonicClass));
}

/** Tonics by pitch class, from C up, as keys are usually signed. */
export function usualTonics(mode: "major" | "minor"): string[] {
  return Array.from({ length: 12 }, (_, tonicClass) => usualTonic(tonicClass, mode));
}

/**
 * The name without double accidentals: those are correct in theory and a nuisance on a stand.
 * @example simpleName("Bbb") // "A"
 * @example simpleName("Cb") // "Cb"
 */
export function simpleName(name: string): string {
  const by = alterOf(name);
  return Math.abs(by) <= 1 ? name : classNameOf(classOf(name), by < 0 ? "flats" : "sharps");
}

/**
 * The name as far above `to` as it was above `from`, counted in letters and in semitones, so that a fourth
 * stays a fourth; double accidentals are made simple.
 * @example transposeName("F", "C", "Gb") // "Cb"
 * @example transposeName("A", "C", "A#") // "G"
 */
export function transposeName(name: string, from: string, to: string): string {
  const step = mod(stepOf(name) - stepOf(from) + stepOf(to), 7);
  return simpleName(nameOnStep(step, classOf(name) - classOf(from) + classOf(to)));
}

/**
 * The usual name of a pitch class as a root in a key: lowered degrees as flats, the raised fourth as a sharp, as the
 * tonics of major keys are named above C.
 * @example rootNameInKey(6, "C") // "F#"
 */
export function rootNameInKey(pitchClass: number, tonic: string): string {
  return transposeName(usualTonic(pitchClass - classOf(tonic), "major"), "C", tonic);
}
