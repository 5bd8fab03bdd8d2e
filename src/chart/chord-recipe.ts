/**
 * What a chord symbol says apart from its root: which third, fifths, seventh and tensions. Symbols that say the same
 * have the same recipe and are printed alike.
 */
import type { ChordTone, Degree, Quality } from "./types.ts";

export interface Recipe {
  /** "fourth" and "second" stand in for the third in sus chords; null when the chord has neither. */
  readonly third: "major" | "minor" | "fourth" | "second" | null;
  /** Semitones: 6, 7, 8; none, one, or both altered ones; rising. */
  readonly fifths: readonly number[];
  /** Semitones: 9 is the sixth or the diminished seventh, 10 the minor, 11 the major seventh. */
  readonly seventh: 9 | 10 | 11 | null;
  /** Semitones of what is named beyond the seventh; rising, in the order 1, 2, 3, 5, 6, 8, 9, 11. */
  readonly tensions: readonly number[];
  readonly altered: boolean;
}

const TENSION_DEGREES: ReadonlyMap<number, Degree> = new Map([
  [1, "b9"],
  [2, "9"],
  [3, "#9"],
  [5, "11"],
  [6, "#11"],
  [8, "b13"],
  [9, "13"],
  // Only beside another seventh: "dim7(addmaj7)".
  [11, "7"],
]);

const FIFTH_DEGREES: ReadonlyMap<number, Degree> = new Map([
  [6, "b5"],
  [7, "5"],
  [8, "#5"],
]);

/** Chord tones with degrees and roles, rising from the root. */
export function tonesOf(recipe: Recipe): ChordTone[] {
  const tones: ChordTone[] = [{ degree: "1", semitones: 0, role: "root" }];
  switch (recipe.third) {
    case "major":
      tones.push({ degree: "3", semitones: 4, role: "third" });
      break;
    case "minor":
      tones.push({ degree: "b3", semitones: 3, role: "third" });
      break;
    case "fourth":
      tones.push({ degree: "11", semitones: 5, role: "third" });
      break;
    case "second":
      tones.push({ degree: "9", semitones: 2, role: "third" });
      break;
    case null:
      break;
  }
  for (const semitones of recipe.fifths) {
    tones.push({ degree: FIFTH_DEGREES.get(semitones)!, semitones, role: "fifth" });
  }
  if (recipe.seventh !== null) {
    const degree = recipe.seventh === 9 ? "6" : recipe.seventh === 10 ? "b7" : "7";
    tones.push({ degree, semitones: recipe.seventh, role: "seventh" });
  }
  for (const semitones of recipe.tensions) {
    tones.push({ degree: TENSION_DEGREES.get(semitones)!, semitones, role: "tension" });
  }
  return tones.sort((a, b) => a.semitones - b.semitones);
}

/** Family of the chord. */
export function qualityOf(recipe: Recipe): Quality {
  const { third, seventh } = recipe;
  const only = (fifth: number) => recipe.fifths.length === 1 && recipe.fifths[0] === fifth;
  switch (third) {
    case "fourth":
    case "second":
      return "suspended";
    case "minor":
      if (seventh === 10) return only(6) ? "half-diminished" : "minor-seventh";
      if (only(6)) return seventh === null ? "diminished" : "diminished-seventh";
      if (seventh === 11) return "minor-major";
      return seventh === 9 ? "minor-sixth" : "minor";
    case "major":
    case null:
      if (seventh === 10) return "dominant";
      if (seventh === 11) return only(8) ? "augmented-major" : "major-seventh";
      if (seventh === 9) return "sixth";
      if (third === null) return "power";
      return only(8) ? "augmented" : "major";
  }
}

/**
 * The symbol without its root, in the house style: "maj7", "m7b5", "7(b9,#11)", "sus4", "m(maj7)".
 * Alterations stand in brackets, so that an accidental never follows the root's.
 */
export function suffixOf(recipe: Recipe): string {
  if (recipe.altered) return "7alt";
  const { third, seventh, fifths } = recipe;
  const tensions = new Set(recipe.tensions);
  const only = (fifth: number) => fifths.length === 1 && fifths[0] === fifth;
  let printedFifths = fifths.filter((fifth) => fifth !== 7);
  let head: string;
  let omitted: string[] = fifths.length === 0 ? ["no5"] : [];
  if (third === "minor" && only(6)) {
    printedFifths = [];
    head = seventh === 10 ? "m7b5" : seventh === 9 ? "dim7" : seventh === 11 ? "dim(maj7)" : "dim";
  } else if (third === "major" && only(8) && seventh === null) {
    printedFifths = [];
    head = "aug";
  } else if (third === null && only(7) && seventh === null && tensions.size === 0) {
    head = "5";
  } else {
    const number = seventh === null ? "" : takeNumber(seventh, third === "minor", tensions);
    head = seventh === 11 ? `maj${number}` : number;
    if (third === "minor") head = seventh === 11 ? `m(${head})` : `m${head}`;
    if (third === "fourth") head += "sus4";
    if (third === "second") head += "sus2";
    if (third === null) omitted = ["no3", ...omitted];
  }
  const added = [...tensions].map((t) => {
    if (t === 11) return "addmaj7";
    return seventh === null ? `add${TENSION_DEGREES.get(t)}` : TENSION_DEGREES.get(t)!;
  });
  const extras = [...printedFifths.map((fifth) => FIFTH_DEGREES.get(fifth)!), ...added, ...omitted];
  if (extras.length === 0) return head;
  if (head === "" && extras.length === 1 && /^add\d/.test(extras[0]!)) return extras[0]!;
  return `${head}(${extras.join(",")})`;
}

/** The number that says the most; takes what it says out of `tensions`. */
function takeNumber(seventh: 9 | 10 | 11, minor: boolean, tensions: Set<number>): string {
  const numbers: readonly [string, readonly number[]][] =
    seventh === 9
      ? [["69", [2]]]
      : [
          ["13", impliedTensions(13, minor)],
          ...(minor ? [["11", impliedTensions(11, minor)] as [string, readonly number[]]] : []),
          ["9", impliedTensions(9, minor)],
        ];
  for (const [name, implied] of numbers) {
    const altered = [...tensions].map((tension) => NATURAL_TENSION[tension]);
    if (implied.every((tension) => tensions.has(tension) && !altered.includes(tension))) {
      for (const tension of implied) tensions.delete(tension);
      return name;
    }
  }
  return seventh === 9 ? "6" : "7";
}

/** The natural tension that an altered one takes the place of, when only a number implied it ("C13b9"). */
export const NATURAL_TENSION: Readonly<Record<number, number>> = { 1: 2, 3: 2, 6: 5, 8: 9 };

/**
 * Semitones of the tensions that a number implies. The natural eleventh is left out under a major third, where it is
 * an avoid note, and kept in minor [practice].
 */
export function impliedTensions(number: number, minor: boolean): readonly number[] {
  switch (number) {
    case 9:
      return [2];
    case 11:
      return [2, 5];
    case 13:
      return minor ? [2, 5, 9] : [2, 9];
    default:
      return [];
  }
}
