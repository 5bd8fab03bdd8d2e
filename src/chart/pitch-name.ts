/**
 * Names of pitch classes: a letter and at most one accidental in everything that is printed, so that a chart can be
 * sight-read. Pitch classes are semitones above C, 0 to 11.
 */

const LETTERS = "CDEFGAB";
const LETTER_CLASSES = [0, 2, 4, 5, 7, 9, 11] as const;
const FLAT_NAMES = ["C", "Db", "D", "Eb", "E", "F", "Gb", "G", "Ab", "A", "Bb", "B"] as const;
const ROOTS_IN_C = ["C", "Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"] as const;
const SHARP_NAMES = ["C", "C#", "D", "D#", "E", "F", "F#", "G", "G#", "A", "A#", "B"] as const;

/** Remainder that is never negative: -1 semitone is 11. */
export function mod12(semitones: number): number {
  return ((semitones % 12) + 12) % 12;
}

/**
 * Pitch class of a name made of a capital letter and any number of "b" or "#".
 * @example classOf("Eb") // 3
 * @example classOf("Cb") // 11
 */
export function classOf(name: string): number {
  return mod12(LETTER_CLASSES[LETTERS.indexOf(name.charAt(0))]! + alteration(name));
}

/** Steps of the staff from C to the name's letter, 0 to 6. */
export function staffStep(name: string): number {
  return LETTERS.indexOf(name.charAt(0));
}

/** Semitones by which the accidentals raise (#) or lower (b) the letter. */
export function alteration(name: string): number {
  return [...name.slice(1)].reduce((sum, sign) => sum + (sign === "#" ? 1 : -1), 0);
}

/**
 * The usual name for a pitch class, black keys as flats or as sharps.
 * @example nameOf(10, "flats") // "Bb"
 */
export function nameOf(pitchClass: number, blackKeys: "flats" | "sharps"): string {
  return (blackKeys === "flats" ? FLAT_NAMES : SHARP_NAMES)[mod12(pitchClass)]!;
}

/**
 * The name without double accidentals: those are correct in theory and a nuisance on a stand.
 * @example simpleName("Bbb") // "A"
 * @example simpleName("Cb") // "Cb"
 */
export function simpleName(name: string): string {
  const by = alteration(name);
  return Math.abs(by) <= 1 ? name : nameOf(classOf(name), by < 0 ? "flats" : "sharps");
}

/**
 * The name as far above `to` as it was above `from`, counted in letters and in semitones, so that a fourth stays a
 * fourth; double accidentals are made simple.
 * @example transposeName("F", "C", "Gb") // "Cb"
 * @example transposeName("A", "C", "A#") // "G"
 */
export function transposeName(name: string, from: string, to: string): string {
  const step = (staffStep(name) - staffStep(from) + staffStep(to) + 14) % 7;
  const pitchClass = mod12(classOf(name) - classOf(from) + classOf(to));
  return simpleName(nameOnStep(step, pitchClass));
}

/**
 * The usual name of a pitch class as a root in a key: lowered degrees as flats, the raised fourth as a sharp.
 * @example rootNameInKey(6, "C") // "F#"
 */
export function rootNameInKey(pitchClass: number, tonic: string): string {
  return transposeName(ROOTS_IN_C[mod12(pitchClass - classOf(tonic))]!, "C", tonic);
}

/** The pitch class written on a given step of the staff, with as many accidentals as it takes. */
function nameOnStep(step: number, pitchClass: number): string {
  const by = mod12(pitchClass - LETTER_CLASSES[step]! + 6) - 6;
  return LETTERS.charAt(step) + (by < 0 ? "b" : "#").repeat(Math.abs(by));
}
