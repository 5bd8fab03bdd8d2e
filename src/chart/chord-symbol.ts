/**
 * Reads chord symbols as people write them and prints them in one house style.
 *
 * A symbol is a root, then a head ("maj", "m", "dim", ...), a number, and any number of modifiers, in brackets or
 * not, then a bass. Each part is read by a table of patterns from left to right; nothing is read twice, so that the
 * time taken is in proportion to the length.
 */
import { classOf, simpleName } from "../pitch/index.ts";
import { finish, type Head, MODIFIERS, notAChord, startDraft } from "./chord-draft.ts";
import { qualityOf, type Recipe, suffixOf, tonesOf } from "./chord-recipe.ts";
import type { Chord } from "./types.ts";

/** Longer texts are not read; the longest sensible symbol is about half as long. */
const MAX_SYMBOL_LENGTH = 40;

const HEADS: readonly (readonly [RegExp, Head])[] = [
  [/major|maj|ma(?!dd)/iy, "major"],
  [/minor|min|mi/iy, "minor"],
  [/dom(?:inant)?/iy, "none"],
  [/[Δ△∆^]/y, "delta"],
  [/[Mj]/y, "major"],
  // "C-5" would be a minor chord without its third, or a major one with a flat fifth: it is refused.
  [/[m\-−–]/y, "minor"],
  [/half[-\s]?dim(?:inished)?/iy, "half-diminished"],
  [/dim(?:inished)?/iy, "diminished"],
  [/[o°º]/y, "diminished"],
  [/[øØ∅⌀]/y, "half-diminished"],
  // "C+5" is the triad with a raised fifth, which the sign before a degree reads.
  [/aug(?:mented)?5?|\+(?!5)/iy, "augmented"],
];

const NUMBER = /6[/,\s]?9|13|11|[25679]/y;
const NO_CHORD = /^n\.?\s?c\.?$/i;
const ROOT = /^[A-G](?:##|bb(?!5|6|9|13)|[b#])?/;
const BASS = /^([A-Ga-g])(##|bb|[b#])?$/;
/** Full stops end abbreviations, "min.7", "7alt."; between numbers they part them, "7.9". */
const STOPS_OF_WORDS = /(\D)\.|\.(?=$|[)(,/\s])/g;

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
  const [written, bassText] = splitBass(plain.slice(rootText.length));
  const kind = written.replace(STOPS_OF_WORDS, "$1").replaceAll(".", ",");
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
  const slash = Math.max(rest.lastIndexOf("/"), rest.lastIndexOf("\\"));
  if (slash < 0) return [rest, null];
  const bass = BASS.exec(rest.slice(slash + 1).trim());
  return bass === null ? [rest, null] : [rest.slice(0, slash), bass[1]!.toUpperCase() + (bass[2] ?? "")];
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
  const draft = startDraft(head, number?.replace(/\D/, "") ?? null);
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

function rootFault(text: string): string {
  if (text === "") return "it is empty";
  if (/^[a-g]/.test(text)) return "its root is not a capital letter";
  return "it does not start with a root A to G";
}
