/** Lines of a chart that hold words: headings, names of sections, titles, tempo. */
import { isChord, namesOf } from "./note-names.ts";

export type LineOfWords =
  | { readonly kind: "heading"; readonly name: HeadingName; readonly value: string }
  | { readonly kind: "section"; readonly name: string; readonly rest: string; readonly asks: boolean }
  | { readonly kind: "words" }
  | { readonly kind: "left out" }
  | { readonly kind: "nothing" }
  | { readonly kind: "unknown heading"; readonly word: string; readonly mend: string };

export type HeadingName = "name" | "key" | "meter" | "idiom" | "names";

const HEADINGS: ReadonlyMap<string, HeadingName> = new Map([
  ["name", "name"],
  ["title", "name"],
  ["key", "key"],
  ["meter", "meter"],
  ["metre", "meter"],
  ["time", "meter"],
  ["time signature", "meter"],
  ["idiom", "idiom"],
  ["names", "names"],
  ["note names", "names"],
]);

/** Headings that say nothing about the chords. */
const ASIDE =
  /^(?:tempo|bpm|style|feel|groove|composer|music|words|lyrics?|arr|arranger|arranged by|transcribed by|artist|album|year|date|source|comments?|notes?|copyright|by)$/;

/** Names of sections, also in German, French, Spanish and Italian. */
const SECTION_NAME =
  /^(?:[a-z][1-4]?['’]*|(?:first |second |last )?(?:[a-z][ -]?)?(?:section|part)(?: [a-z]?\d?)?|(?:teil|partie?|parte) [a-z]?\d?|(?:intro(?:duction|duzione)?|verse|pre-?chorus|chorus|bridge|solos?|head|theme|outro|ending|tag|interlude|turn-?around|refrain|vamp|shout|middle eight|break|last time|strophe|vorspiel|zwischenspiel|nachspiel|couplet|pont|estrofa|estribillo|puente|strofa|ritornello|ponte)(?: ?[a-z\d]{1,2}['’]*)?)$/;

const TEMPO = /^\W*(?:[♩♪]|\u{1d15f}|\u{1d15e}|[qhe])\.?\s*=\s*\d|\b\d{2,3}\s*bpm\b|^\W*tempo\b|\bbpm\b/iu;
const STYLE =
  /^(?=.*[a-z])(?:(?:\d{1,2}\/\d{1,2}(?![\d/])|med(?:ium)?|slow(?:ly)?|fast|up|tempo|easy|straight|even|jazz|swing|swung|bossa|nova|samba|latin|funk|rock|shuffle|ballad|waltz|eighths?|feel|moderato|andante|allegro|\(?=?\d{2,3}(?!\d)\)?)[\s.,-]*)+$/i;

/** Sections by number: "II" alone on its line, "II. | C | F |". */
const ROMAN = /^(I{1,3}|IV|VI{0,3})(?:[.:)]?$|[.:)]\s*(?=\|)(.*)$)/;

/** What people set around the name of a section: "<A>", "{A}", "== A ==", "--- Bridge ---". */
const FRAMED =
  /^(?:<|\{|[=~*_]{1,4}|-{2,})\s*(\p{L}[\p{L}\d'’ -]{0,24}?)()\s*(?:>|\}|[=~*_]{1,4}|-{2,}):?\s*(\|.*)?$/u;
const UNDER_HASH = /^#{2,6}\s*(\p{L}[\p{L}\d'’ -]{0,24})()():?$/u;

const AS_THEY_SOUND = "Write the chords as they sound, without a capo or a transposition.";

const COLON = /^\s*(\p{L}[\p{L}\d'’ .-]{0,24}?)\s*([:=])(.*)$/u;

/** What a line of words is; null for a line of bars. `started` when bars have been read before it. */
export function lineOfWords(line: string, started: boolean): LineOfWords | null {
  const text = line.trim();
  if (text.includes("---") && /^[|:+=_\s-]+$/.test(text)) return { kind: "nothing" };
  if (/^(?:\*{3,}|={3,}|_{3,}|~{3,})$/.test(text)) return { kind: "nothing" };
  if (/^`{3}\w*$/.test(text)) return { kind: "nothing" };
  if (/^(?:\/\/|#\s)/.test(text)) return { kind: "left out" };
  if (!text.includes("|") && (TEMPO.test(text) || STYLE.test(text))) return { kind: "left out" };
  const inKey = /^(?:in|key)\s+(?:of\s+)?([A-G][b#♭♯]?\s?(?:m|minor|major|maj|min)?):?$/i.exec(text);
  if (inKey !== null) return { kind: "heading", name: "key", value: inKey[1]! };
  const heading = headingOf(text, started);
  if (heading !== null) return heading;
  const marked = markedSection(text);
  if (marked !== null) return marked;
  const roman = ROMAN.exec(text);
  if (roman !== null) return { kind: "section", name: roman[1]!, rest: roman[2] ?? "", asks: false };
  if (text.includes("|")) return sectionBeforeBars(text);
  if (/^capo(?:\s+(?:on|at|fret))*\s+(?:\d*[1-9]|[IVX]+)\b/i.test(text)) {
    return { kind: "unknown heading", word: text.slice(0, 24), mend: AS_THEY_SOUND };
  }
  const key = /^key\s+(?:(?:of|is|[-–])\s+)?(\S.*)$/i.exec(text);
  if (key !== null) return { kind: "heading", name: "key", value: key[1]! };
  return sectionLine(text) ?? (isProse(text, started) ? { kind: "words" } : null);
}

/** A line with a word and a colon: "key: F", "A: | C | F |", "Tempo: 120"; null for "Am:3 D7:1". */
function headingOf(text: string, started: boolean): LineOfWords | null {
  const found = COLON.exec(text);
  if (found === null) return null;
  const word = found[1]!.toLowerCase().replace(/\s+/g, " ").replace(/\.$/, "");
  const value = found[3]!;
  const name = HEADINGS.get(word);
  if (name !== undefined) return { kind: "heading", name, value: value.trim() };
  if (found[2] === "=") return null;
  // A colon with a number right behind it gives a chord its beats, and ":|" is a repeat sign.
  if (/^[\d|]/.test(value) && (isChord(found[1]!) || found[1]!.includes(" "))) return null;
  if (value.startsWith("|") && (isChord(found[1]!) || !SECTION_NAME.test(word))) return null;
  if (SECTION_NAME.test(word)) return { kind: "section", name: found[1]!, rest: value, asks: false };
  if (ASIDE.test(word)) return { kind: "left out" };
  if (/^\d/.test(value) && isChord(found[1]!)) return null;
  if (/^\s*\|/.test(value) && !isChord(found[1]!)) {
    return { kind: "section", name: found[1]!, rest: value, asks: false };
  }
  // "Last time:" with nothing behind it: a title, or the name of what follows.
  if (value.trim() === "" && !isChord(found[1]!)) {
    return started ? { kind: "section", name: found[1]!, rest: "", asks: false } : { kind: "words" };
  }
  const mend = /^(?:capo|transpose|transposition)$/.test(word)
    ? AS_THEY_SOUND
    : /^(?:form|structure|order)$/.test(word)
      ? "Write the sections out in the order in which they are played."
      : "Write key, meter, idiom, name or names before the colon; a section's name goes in brackets: [Bridge].";
  // "C7: Bb7" is a chord without its beats; the reader of bars says so.
  return isChord(found[1]!) ? null : { kind: "unknown heading", word: found[1]!, mend };
}

/** "(A)", "(Bridge)", "A)", "A. | C |", "<A>", "== Bridge ==": a section by the marks around its name. */
function markedSection(text: string): LineOfWords | null {
  const letter = /^(?:\(([A-Z]\d?['’]*)\)|([A-Z]\d?['’]*)(?:\)|\.(?=\s.*\||$)))\s*(.*)$/.exec(text);
  const marked =
    letter ??
    /^\((\p{L}[^()|]{1,24})\)()\s*(\|.*)?$/u.exec(text) ??
    FRAMED.exec(text) ??
    UNDER_HASH.exec(text);
  const name = marked?.[1] ?? marked?.[2];
  if (marked == null || name === undefined) return null;
  if (letter === null && (!SECTION_NAME.test(name.toLowerCase()) || isChordOfTwoSigns(name))) return null;
  return { kind: "section", name, rest: marked[3] ?? "", asks: false };
}

/** "Bridge | Gm7 | C7 |": a name before the first bar line. */
function sectionBeforeBars(text: string): LineOfWords | null {
  const found = /^([^|[\](){}:%]{2,24}?)\s*(\|.*)$/.exec(text);
  if (found === null || isChord(found[1]!) || !SECTION_NAME.test(found[1]!.toLowerCase())) return null;
  return { kind: "section", name: found[1]!, rest: found[2]!, asks: false };
}

/** "Am" in brackets is an optional chord; a letter alone names a section, and so does "A2". */
function isChordOfTwoSigns(name: string): boolean {
  return isChord(name) && !/^[A-Z][1-4]?$/.test(name);
}

/** A line that is the name of a section: "Bridge", "Part A". A bare letter could be a chord, and so could "A2". */
function sectionLine(text: string): LineOfWords | null {
  if (/^[A-Z][1-4]$/.test(text)) return { kind: "section", name: text, rest: "", asks: isChord(text) };
  if (!SECTION_NAME.test(text.toLowerCase()) || (isChord(text) && text.length > 1)) return null;
  if (text.length > 1) return { kind: "section", name: text, rest: "", asks: false };
  return /^[A-Z]$/.test(text) ? { kind: "section", name: text, rest: "", asks: isChord(text) } : null;
}

/** Half of it or more is words, and none of it bars. */
function isProse(text: string, started: boolean): boolean {
  if (/[|%{}]/.test(text)) return false;
  const parts = withoutQuotes(text)
    .split(/[\s,]+/)
    .filter((part) => part !== "");
  const words = parts.filter(isWord).length;
  if (parts.some((part) => namesOf(part) !== null) && words < parts.length) return false;
  if (parts.some(isRoadWord)) return false;
  // A row of degrees is no title, though letters make it look like words: "I vi ii V".
  if (parts.filter((part) => /^[b#♭♯]?(?:VII?|I?V|I{1,3}|vii?|i?v|i{1,3})\d*$/.test(part)).length > 1)
    return false;
  return words > 0 && words * 2 >= parts.length && (started || words >= 1);
}

/** A title stands in quotation marks now and then. */
export function withoutQuotes(text: string): string {
  return /^(["'«‘])[^"«»]*(["'»’])$/u.test(text) ? text.slice(1, -1).trim() : text;
}

function isRoadWord(part: string): boolean {
  return /^\(?(?:fine|coda|segno|d\.?c\.?|d\.?s\.?|sim\.?|simile|da|dal|repeat|bis)\)?$/i.test(part);
}

function isWord(part: string): boolean {
  if (!/^\(?\p{L}[\p{L}'’.!?-]+\)?$/u.test(part)) return false;
  return !isChord(part) && !isChord(part.charAt(0).toUpperCase() + part.slice(1)) && namesOf(part) === null;
}

/** A meter that a line of words names: "Waltz in 3/4". */
export function meterInWords(line: string): string | null {
  if (/\b(?:cut time|alla breve)\b/i.test(line)) return "2/2";
  return /(?<![\d/])\d{1,2}\/(?:2|4|8|16)(?![\d/])/.exec(line)?.[0] ?? null;
}
