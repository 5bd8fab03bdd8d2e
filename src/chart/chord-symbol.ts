/**
 * Reads chord symbols as people write them and prints them in one house style.
 *
 * A symbol is a root, then a head ("maj", "m", "dim", ...), a number, and any number of modifiers, in brackets or
 * not, then a bass. Each part is read by a table of patterns from left to right; nothing is read twice, so that the
 * time taken is in proportion to the length.
 */

import { classOf, simpleName } from "../pitch/index.ts";
import { Problem } from "../take/index.ts";
import {
  impliedTensions,
  NATURAL_TENSION,
  qualityOf,
  type Recipe,
  suffixOf,
  tonesOf,
} from "./chord-recipe.ts";
import type { Chord } from "./types.ts";

/** Longer texts are not read; the longest sensible symbol is about half as long. */
export const MAX_SYMBOL_LENGTH = 40;

const EXPECTED =
  "Write a capital root A to G with b or # if needed, then the kind of chord, then /bass if needed: C7, F#m7b5, Bbmaj7, C7(b9)/E, or N.C.";

/** How a symbol starts after its root. */
type Head = "none" | "major" | "delta" | "minor" | "diminished" | "half-diminished" | "augmented";

const HEADS: readonly (readonly [RegExp, Head])[] = [
  [/maj|ma(?!dd)/iy, "major"],
  [/min|mi/iy, "minor"],
  [/[Δ△∆^]/y, "delta"],
  [/[Mj]/y, "major"],
  [/[m\-−–]/y, "minor"],
  [/dim/iy, "diminished"],
  [/[o°º]/y, "diminished"],
  [/[øØ]/y, "half-diminished"],
  [/aug|\+/iy, "augmented"],
];

const NUMBER = /69|6\/9|13|11|[25679]/y;
const NO_CHORD = /^n\.?\s?c\.?$/i;
const ROOT = /^[A-G](?:##|bb(?!5|6|9|13)|[b#])?/;
const BASS = /^[A-G](?:##|bb|[b#])?$/;

/** A chord while it is being read. */
interface Draft {
  third: Recipe["third"];
  fifths: Set<number>;
  seventh: Recipe["seventh"];
  /** What the number implies. */
  implied: Set<number>;
  /** What is named by itself. */
  tensions: Set<number>;
  altered: boolean;
}

/**
 * Reads one chord symbol; null for "N.C.". Flats may be b or ♭, sharps # or ♯; double accidentals of a root are made
 * simple ("Bbb7" is A7).
 *
 * Throws `Problem("not-a-chord")` that says what could not be read and what was expected.
 * @example parseChord("C-7b5")?.symbol // "Cm7b5"
 * @example parseChord("C7b9#11/E")?.symbol // "C7(b9,#11)/E"
 */
export function parseChord(text: string): Chord | null {
  const trimmed = text.trim();
  if (NO_CHORD.test(trimmed)) return null;
  if (trimmed.length > MAX_SYMBOL_LENGTH)
    throw notAChord(trimmed.slice(0, MAX_SYMBOL_LENGTH), "it is too long");
  const plain = trimmed.replaceAll("♭", "b").replaceAll("♯", "#").replaceAll("\u{1d12b}", "bb");
  const rootText = ROOT.exec(plain)?.[0];
  if (rootText === undefined) throw notAChord(trimmed, rootFault(plain));
  const [kind, bassText] = splitBass(plain.slice(rootText.length));
  const recipe = readRecipe(kind, trimmed);
  const root = simpleName(rootText);
  const bass = bassText === null ? root : simpleName(bassText);
  return chordOf(root, recipe, bass, trimmed);
}

/** The same chord on another root and bass, in the house style. */
export function withRoot(chord: Chord, root: string, bass: string): Chord {
  const symbol = root + symbolSuffix(chord) + (bass === root ? "" : `/${bass}`);
  return { ...chord, symbol, text: symbol, root, rootClass: classOf(root), bass, bassClass: classOf(bass) };
}

/** What stands between root and bass in the house style: "m7b5". */
export function symbolSuffix(chord: Chord): string {
  const end = chord.bass === chord.root ? chord.symbol.length : -(chord.bass.length + 1);
  return chord.symbol.slice(chord.root.length, end);
}

function chordOf(root: string, recipe: Recipe, bass: string, text: string): Chord {
  return {
    symbol: root + suffixOf(recipe) + (bass === root ? "" : `/${bass}`),
    text,
    root,
    rootClass: classOf(root),
    bass,
    bassClass: classOf(bass),
    quality: qualityOf(recipe),
    tones: tonesOf(recipe),
    altered: recipe.altered,
  };
}

/** A bass is a note name after the last slash; "6/9" has none. */
function splitBass(rest: string): [string, string | null] {
  const slash = rest.lastIndexOf("/");
  if (slash < 0) return [rest, null];
  const bass = rest.slice(slash + 1).trim();
  return BASS.test(bass) ? [rest.slice(0, slash), bass] : [rest, null];
}

function readRecipe(kind: string, symbol: string): Recipe {
  let at = 0;
  const match = (pattern: RegExp): RegExpExecArray | null => {
    pattern.lastIndex = at;
    const found = pattern.exec(kind);
    if (found !== null) at += found[0].length;
    return found;
  };
  match(/\s+/y);
  const head = HEADS.find(([pattern]) => match(pattern) !== null)?.[1] ?? "none";
  match(/\s+/y);
  const number = match(NUMBER)?.[0] ?? null;
  const draft = startDraft(head, number);
  if (draft === null) throw notAChord(symbol, `"${number}" cannot follow here`);
  let depth = 0;
  let last: "number" | "other" = number === null ? "other" : "number";
  while (at < kind.length) {
    const bracket = match(/[()]/y)?.[0];
    if (bracket !== undefined) {
      depth += bracket === "(" ? 1 : -1;
      if (depth < 0) break;
      last = "other";
    } else if (match(/[,\s/]+/y) !== null) {
      last = "other";
    } else {
      const before = at;
      const step = MODIFIERS.find(({ pattern, after }) => {
        if (after !== undefined && after !== last) return false;
        const found = match(pattern);
        return found !== null;
      });
      const understood = step?.apply(draft, kind.slice(before, at), head) ?? false;
      if (!understood) throw notAChord(symbol, `"${kind.slice(before)}" cannot be read`);
      last = step!.isNumber === true ? "number" : "other";
    }
  }
  if (depth !== 0) throw notAChord(symbol, "its brackets do not match");
  return finish(draft, symbol);
}

interface Modifier {
  readonly pattern: RegExp;
  /** Only after this kind of part. */
  readonly after?: "number" | "other";
  readonly isNumber?: boolean;
  /** Changes the draft; false when the part makes no sense in this chord. */
  apply(draft: Draft, part: string, head: Head): boolean;
}

/** What may follow the number, tried in this order. */
const MODIFIERS: readonly Modifier[] = [
  { pattern: /sus[24]?/iy, apply: suspend },
  { pattern: /alt(?:ered)?/iy, apply: alter },
  {
    pattern: /add\s?[b#]?(?:13|11|[2469])/y,
    apply: (draft, part) => addTension(draft, part.replace(/add\s?/, "")),
  },
  { pattern: /(?:no|omit)\s?[35](?:rd|th)?/y, apply: omit },
  { pattern: /[b#+-](?:13|11|[24569])/y, apply: (draft, part) => addTension(draft, part) },
  { pattern: /M/y, after: "number", apply: majorSeventh },
  { pattern: /(?:[Mm]aj|[Mm]a|[MjΔ△∆^])(?:13|11|[79])?/y, apply: majorSeventh },
  { pattern: /aug|\+/y, apply: (draft) => alterFifth(draft, 8) },
  { pattern: /13|11|9/y, after: "other", isNumber: true, apply: (draft, part) => addTension(draft, part) },
];

/** The chord that head and number make; null when the number has no meaning after the head. */
function startDraft(head: Head, number: string | null): Draft | null {
  const minorThird = head === "minor" || head === "diminished" || head === "half-diminished";
  const fifth = head === "augmented" ? 8 : head === "diminished" || head === "half-diminished" ? 6 : 7;
  const draft: Draft = {
    third: minorThird ? "minor" : "major",
    fifths: new Set([fifth]),
    seventh: null,
    implied: new Set(),
    tensions: new Set(),
    altered: false,
  };
  if (head === "half-diminished") draft.seventh = 10;
  if (head === "delta") draft.seventh = 11;
  switch (number) {
    case null:
      return draft;
    case "5":
      draft.third = null;
      return head === "none" ? draft : null;
    case "2":
      draft.tensions.add(2);
      return head === "none" ? draft : null;
    case "6":
    case "69":
    case "6/9":
      if (head !== "none" && head !== "major" && head !== "minor") return null;
      draft.seventh = 9;
      if (number !== "6") draft.tensions.add(2);
      return draft;
    default:
      draft.seventh = head === "major" || head === "delta" ? 11 : head === "diminished" ? 9 : 10;
      for (const tension of impliedTensions(Number(number), minorThird)) draft.implied.add(tension);
      // A dominant eleventh is played without its third: it is a ninth with a suspended fourth (Levine 1995 [memory]).
      if (number === "11" && draft.third === "major" && draft.seventh === 10) draft.third = "fourth";
      return draft;
  }
}

function suspend(draft: Draft, part: string): boolean {
  const stand = part.endsWith("2") ? "second" : "fourth";
  if (draft.third === "minor") return false;
  if (draft.third !== "major" && draft.third !== stand) {
    draft.third = "fourth";
    draft.tensions.add(2);
  } else {
    draft.third = stand;
  }
  return true;
}

/** An altered dominant: both ninths, the sharp eleventh and the flat thirteenth in place of a natural fifth. */
function alter(draft: Draft, _part: string, head: Head): boolean {
  if (head !== "none" || draft.third !== "major") return false;
  draft.seventh = 10;
  draft.altered = true;
  return true;
}

function omit(draft: Draft, part: string): boolean {
  if (part.includes("3")) draft.third = null;
  else draft.fifths.clear();
  return true;
}

function majorSeventh(draft: Draft, part: string): boolean {
  draft.seventh = 11;
  const number = Number(/\d+$/.exec(part)?.[0] ?? 7);
  for (const tension of impliedTensions(number, draft.third === "minor")) draft.implied.add(tension);
  return true;
}

function alterFifth(draft: Draft, fifth: number): boolean {
  draft.fifths.delete(7);
  draft.fifths.add(fifth);
  return true;
}

/** Semitones of an altered or added degree; 2, 4 and 6 are other names for 9, 11 and 13. */
const NAMED_SEMITONES: Readonly<Record<string, number>> = {
  b2: 1,
  "2": 2,
  "#2": 3,
  b9: 1,
  "9": 2,
  "#9": 3,
  "4": 5,
  "#4": 6,
  "11": 5,
  "#11": 6,
  b6: 8,
  "6": 9,
  b13: 8,
  "13": 9,
};

function addTension(draft: Draft, part: string): boolean {
  const name = part.replace("+", "#").replace("-", "b");
  if (name === "b5") return alterFifth(draft, 6);
  if (name === "#5") return alterFifth(draft, 8);
  const semitones = NAMED_SEMITONES[name];
  if (semitones === undefined) return false;
  if (semitones === 9 && draft.seventh === null) {
    draft.seventh = 9;
    return true;
  }
  const natural = NATURAL_TENSION[semitones];
  if (natural !== undefined) draft.implied.delete(natural);
  draft.tensions.add(semitones);
  return true;
}

/** Takes out what is said twice; refuses what contradicts itself. */
function finish(draft: Draft, symbol: string): Recipe {
  if (draft.altered) {
    return { third: "major", fifths: [], seventh: 10, tensions: [1, 3, 6, 8], altered: true };
  }
  const tensions = new Set([...draft.implied, ...draft.tensions]);
  if (draft.third === "minor" && tensions.has(3))
    throw notAChord(symbol, "its sharp ninth is its minor third");
  if (draft.third === "fourth") tensions.delete(5);
  if (draft.third === "second") tensions.delete(2);
  if (draft.seventh === 9) tensions.delete(9);
  for (const fifth of draft.fifths) tensions.delete(fifth);
  const rising = (set: ReadonlySet<number>) => [...set].sort((a, b) => a - b);
  return {
    third: draft.third,
    fifths: rising(draft.fifths),
    seventh: draft.seventh,
    tensions: rising(tensions),
    altered: false,
  };
}

function rootFault(text: string): string {
  if (text === "") return "it is empty";
  if (/^[a-g]/.test(text)) return "its root is not a capital letter";
  return "it does not start with a root A to G";
}

function notAChord(text: string, reason: string): Problem {
  return new Problem("not-a-chord", `"${text}" is not a chord: ${reason}`, null, EXPECTED);
}
