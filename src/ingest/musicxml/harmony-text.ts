import { fifthsOf, type Interval, intervalOfDegree, moveName, nameAt, tonicOf } from "../../pitch/index.ts";
import { child, childNumber, childText, type XmlElement } from "./element.ts";
import { HARMONY_KINDS } from "./harmony-kinds.ts";
import type { Harmony } from "./interfaces.ts";
import { writtenName } from "./sounding-pitch.ts";

const KINDS = new Map(HARMONY_KINDS.map((entry) => [entry.kind, entry]));

/** One `<degree>`: "add 9 -1" is an added b9. */
interface Alteration {
  readonly value: number;
  readonly alter: number;
  readonly type: "add" | "alter" | "subtract";
}

/** Key in which Roman numerals are to be read. */
export interface NumeralKey {
  readonly fifths: number;
  readonly mode: "major" | "minor";
}

/**
 * The usual spelling of a `<harmony>`, at sounding pitch.
 *
 * The package keeps only the last root of a `<harmony>` with several stacked chords; the first, which is the one
 * that sounds, is read from the element. It also does not know the numerals of 4.0.
 *
 * @returns null when there is no chord in it; a kind "other" without a text of its own says none.
 * @example // root B, alter -1, kind dominant, degree add 9 -1
 * harmonyText(harmony, element, key, transposition) // "Bb7(b9)"
 */
export function harmonyText(
  harmony: Harmony,
  element: XmlElement,
  key: NumeralKey,
  transposition: Interval,
): string | null {
  const first = firstChord(element);
  const kindElement = first.find((one) => one.nodeName === "kind");
  const kind = kindElement?.textContent.trim() ?? "major";
  if (kind === "none") return "N.C.";
  const root = rootOf(first, key, transposition);
  if (root === null) return null;
  const degrees = first.filter((one) => one.nodeName === "degree").map(alterationOf);
  const text = kindElement?.getAttribute("text")?.trim() ?? "";
  if (text === "" && (kind === "other" || !KINDS.has(kind))) return null;
  const bass = bassOf(harmony, first, root, kind, transposition);
  return `${root}${suffixOf(kind, text, degrees)}${bass === null || bass === root ? "" : `/${bass}`}`;
}

/** Number of chords stacked in one `<harmony>`. */
export function stackedChords(element: XmlElement): number {
  return element.children.filter((one) => isRoot(one.nodeName)).length;
}

function isRoot(name: string): boolean {
  return name === "root" || name === "function" || name === "numeral";
}

function firstChord(element: XmlElement): XmlElement[] {
  let roots = 0;
  return element.children.filter((one) => {
    if (isRoot(one.nodeName)) roots++;
    return roots <= 1;
  });
}

function rootOf(chord: readonly XmlElement[], key: NumeralKey, transposition: Interval): string | null {
  for (const one of chord) {
    if (one.nodeName === "root") {
      const step = childText(one, "root-step");
      return step === null ? null : statedName(step, childNumber(one, "root-alter") ?? 0, transposition);
    }
    if (one.nodeName === "numeral") {
      const degree = childNumber(one, "numeral-root");
      return degree === null
        ? null
        : moveName(
            scaleDegree(degree, childNumber(one, "numeral-alter") ?? 0, keyOf(one, key)),
            transposition,
          );
    }
    if (one.nodeName === "function") {
      const numeral = /^\s*([b#♭♯]*)(VII|VI|IV|V|III|II|I)/i.exec(one.textContent);
      if (numeral === null) return null;
      const alter = [...numeral[1]!].reduce((sum, sign) => sum + (sign === "b" || sign === "♭" ? -1 : 1), 0);
      return moveName(
        scaleDegree(NUMERALS.indexOf(numeral[2]!.toUpperCase()) + 1, alter, key),
        transposition,
      );
    }
  }
  return null;
}

/** What a document says, as a name; a step that is no letter stays as it is, to be reported as an unread chord. */
function statedName(step: string, alter: number, transposition: Interval): string {
  return /^[a-g]$/i.test(step) ? moveName(writtenName(step, alter), transposition) : step;
}

const NUMERALS = ["I", "II", "III", "IV", "V", "VI", "VII"];

function keyOf(numeral: XmlElement, key: NumeralKey): NumeralKey {
  const own = child(numeral, "numeral-key");
  if (own === null) return key;
  const mode = childText(own, "numeral-mode") ?? "major";
  return {
    fifths: childNumber(own, "numeral-fifths") ?? key.fifths,
    mode: mode === "major" ? "major" : "minor",
  };
}

/** The note on a degree of a key's scale (natural minor in minor), spelled. */
function scaleDegree(degree: number, alter: number, key: NumeralKey): string {
  const above =
    (key.mode === "minor" ? [0, 2, -3, -1, 1, -4, -2] : [0, 2, 4, -1, 1, 3, 5])[(degree - 1) % 7] ?? 0;
  return moveName(nameAt(fifthsOf(tonicOf(key.fifths, key.mode)) + above), { steps: 0, semitones: alter });
}

function alterationOf(element: XmlElement): Alteration {
  const type = childText(element, "degree-type");
  return {
    value: childNumber(element, "degree-value") ?? 0,
    alter: childNumber(element, "degree-alter") ?? 0,
    type: type === "alter" || type === "subtract" ? type : "add",
  };
}

function suffixOf(kind: string, text: string, degrees: readonly Alteration[]): string {
  if (kind === "other" || !KINDS.has(kind)) return text;
  if ((kind === "dominant" || kind === "augmented-seventh") && /^7?alt/i.test(text)) return "7alt";
  const left = [...degrees];
  /** Takes one alteration out of the list if it is there. */
  const take = (type: Alteration["type"], value: number, alter = 0): boolean => {
    const at = left.findIndex((one) => one.type === type && one.value === value && one.alter === alter);
    if (at >= 0) left.splice(at, 1);
    return at >= 0;
  };
  let suffix = KINDS.get(kind)!.suffix;
  if (kind === "suspended-fourth" || kind === "suspended-second") {
    // The highest of the added 7, 9 and 13 names the chord; those below it are understood.
    const seventh = left.some((one) => one.type === "add" && one.value === 7 && one.alter === 0);
    const added = seventh ? [7, 9, 13].filter((value) => take("add", value)) : [];
    const number = added.at(-1) ?? "";
    suffix = `${number}${suffix}`;
  } else if (
    /^dominant/.test(kind) &&
    left.some((one) => one.type === "subtract" && one.value === 3) &&
    take("add", 4)
  ) {
    take("subtract", 3);
    suffix = `${suffix}sus4`;
  } else if (kind === "major-sixth" && take("add", 9)) suffix = "69";
  else if (kind === "minor-sixth" && take("add", 9)) suffix = "m69";
  else if (kind === "minor" && take("add", 7, 1)) suffix = "m(maj7)";
  return `${suffix}${alterationText(left, kind)}`;
}

/** "(b9,#11)", "(add9)", "(no3)"; an altered fifth stands without parentheses as in "7b5". */
function alterationText(alterations: readonly Alteration[], kind: string): string {
  const names = alterations.map(({ value, alter, type }) => {
    const sign = alter < 0 ? "b".repeat(-Math.round(alter)) : "#".repeat(Math.round(alter));
    if (type === "subtract") return `no${value}`;
    if (type === "alter") return `${sign}${value}`;
    // An added seventh is counted from the dominant: with a sharp it is the major one.
    if (value === 7) return alter > 0 ? "maj7" : alter < 0 ? "add6" : "b7";
    return alter === 0 ? `${isDominantLike(kind) ? "" : "add"}${value}` : `${sign}${value}`;
  });
  if (names.length === 0) return "";
  if (names.length === 1 && /^[b#]5$/.test(names[0]!) && kind !== "major") return names[0]!;
  if (names.length === 1 && /^(add9|add2|add11)$/.test(names[0]!) && kind === "major") return names[0]!;
  return `(${names.join(",")})`;
}

/** On seventh chords an added ninth or thirteenth is written by its number alone: "7(13)". */
function isDominantLike(kind: string): boolean {
  return /dominant|seventh|ninth|11th|13th|half/.test(kind);
}

function bassOf(
  harmony: Harmony,
  chord: readonly XmlElement[],
  root: string,
  kind: string,
  transposition: Interval,
): string | null {
  const bass = chord.find((one) => one.nodeName === "bass");
  const step = bass === undefined ? null : childText(bass, "bass-step");
  if (step !== null) return statedName(step, childNumber(bass!, "bass-alter") ?? 0, transposition);
  const inversion = harmony.inversion === null ? 0 : Number.parseInt(harmony.inversion.data, 10);
  const tone = inversion > 0 ? KINDS.get(kind)?.tones.split(" ")[inversion - 1] : undefined;
  // The root already sounds where the transposition has put it.
  return tone === undefined ? null : moveName(root, intervalOfDegree(tone));
}
