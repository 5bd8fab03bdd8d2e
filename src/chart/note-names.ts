/** Names of notes other than English ones: German (H is B, B is B flat) and solfège (do re mi). */
import { Problem } from "../take/index.ts";
import { chartProblem, type Place } from "./chart-place.ts";
import { parseChord } from "./chord-symbol.ts";

export const NOTE_NAMES = ["english", "german", "solfege"] as const;
export type NoteNames = (typeof NOTE_NAMES)[number];

const SOLFEGE: Readonly<Record<string, string>> = {
  do: "C",
  ut: "C",
  re: "D",
  ré: "D",
  mi: "E",
  fa: "F",
  sol: "G",
  la: "A",
  si: "B",
};

const SOLFEGE_ROOT = /^(do|ut|re|ré|mi|fa|sol|la|si)(?=$|[^a-z]|b(?!e)|m|sus|dim|aug|alt|add|no)/iu;

/** "Es" and "As" are names, "Esus4" and "Asus2" are not. */
const GERMAN_ROOT = /^(?:([EA])s(?!us)|([CDFGAH])is|([CDG])es|([A-H])(b(?!\d)|#)?)/;

/**
 * A chord with the names of its root and bass in English; null when it does not start with a name of that kind.
 * @example inEnglish("Sib7", "solfege") // "Bb7"
 * @example inEnglish("Hm7/Fis", "german") // "Bm7/F#"
 */
export function inEnglish(text: string, names: NoteNames): string | null {
  const plain = text.replaceAll("♭", "b").replaceAll("♯", "#");
  if (names === "english" || /^n\.?\s?c\.?$/i.test(text)) return text;
  const root = rootIn(plain, names);
  if (root === null) return null;
  const rest = plain.slice(root.length);
  const slash = rest.lastIndexOf("/");
  const bass = slash < 0 ? null : rootIn(rest.slice(slash + 1), names);
  if (bass === null || bass.length !== rest.length - slash - 1) return root.name + rest;
  return `${root.name}${rest.slice(0, slash)}/${bass.name}`;
}

interface NamedRoot {
  readonly name: string;
  /** Letters that it takes in the text. */
  readonly length: number;
}

function rootIn(text: string, names: NoteNames): NamedRoot | null {
  if (names === "solfege") {
    const found = SOLFEGE_ROOT.exec(text);
    if (found === null) return null;
    const accidental = /^[b#]/.exec(text.slice(found[0].length))?.[0] ?? "";
    const name = SOLFEGE[found[1]!.toLowerCase()]! + accidental;
    return { name, length: found[0].length + accidental.length };
  }
  const found = GERMAN_ROOT.exec(text);
  if (found === null) return null;
  const [all, s, is, es, letter, sign = ""] = found;
  const plain = letter === undefined ? null : letter === "H" ? "B" : letter === "B" ? "Bb" : letter;
  // "Bb" can only mean B flat: the double flat is called Heses.
  const signed = letter === "B" && sign === "b" ? "Bb" : `${plain}${sign}`;
  const name =
    s !== undefined
      ? `${s}b`
      : is !== undefined
        ? `${is === "H" ? "B" : is}#`
        : es !== undefined
          ? `${es}b`
          : signed;
  return { name, length: all.length };
}

/** Whether a text that is no English chord would be one in solfège or with German names. */
export function namesOf(text: string): "german" | "solfege" | null {
  for (const names of ["solfege", "german"] as const) {
    if (names === "german" && !/^(?:H|[A-G]is|[CDFG]es|[AE]s)/.test(text)) continue;
    const english = inEnglish(text, names);
    if (english !== null && isChord(english)) return names;
  }
  return null;
}

/** The question to the writer of a chart whose notes seem to have other names. */
export function askForNames(text: string, names: "german" | "solfege", place: Place): Problem {
  const [what, where] =
    names === "german"
      ? ["in German names H is B natural, B is B flat, -is a sharp and -es a flat", "B and Bb"]
      : ["do, re, mi are notes in solfège", "C, D, E"];
  return chartProblem(
    "note-names",
    `"${text.slice(0, 40)}" has no English note name: ${what}`,
    place,
    `Write the line "names: ${names}" above the first bar if all chords are meant so, or write ${where}.`,
  );
}

export function isChord(text: string): boolean {
  try {
    parseChord(text);
    return true;
  } catch (error) {
    if (error instanceof Problem) return false;
    throw error;
  }
}
