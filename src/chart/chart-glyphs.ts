/** The many signs that people type or paste for the few of the chart format. */

const SIGNS: readonly (readonly [RegExp, string])[] = [
  [/[\u200b-\u200d\u2060\ufeff]/g, ""],
  [/[“”„″]/g, '"'],
  [/×/g, "x"],
  // The strokes of fractions and divisions.
  [/[∕⁄]/g, "/"],
  // The musical symbols of Unicode 1D100 to 1D107: bar lines, and the two repeat signs.
  [/\u{1d100}|\u{1d104}|\u{1d105}/gu, "|"],
  [/\u{1d101}|\u{1d102}|\u{1d103}/gu, "||"],
  [/\u{1d106}/gu, "|:"],
  [/\u{1d107}/gu, ":|"],
  [/[│┃¦∣❘┆┇┊┋]/g, "|"],
  [/[‖║∥]/g, "||"],
  [/\[\||\|\]/g, "||"],
  [/\|{2,}/g, "||"],
  // A final bar line drawn with a full stop for its thick stroke.
  [/\|\.\s*$/g, "||"],
  // Square brackets with dots are repeat signs as well.
  [/\[:/g, "|:"],
  [/:\]/g, ":|"],
  [/\|\|:/g, "|:"],
  [/:\|\|/g, ":|"],
  [/⊕/g, "\u{1d10c}"],
];

/** What mail, lists and tables put around a line of a chart, and what it means there. */
const WRAPPINGS: readonly (readonly [RegExp, string])[] = [
  // Quoted mail, and points of a list; "- | C |" is a chord that goes on.
  [/^\s*(?:>\s*)+(?=\S)/, ""],
  [/^\s*[•●▪◦‣]\s*/, ""],
  [/^\s*[-–—*]\s+(?=[A-G][^|]*\|)/, ""],
  // Bold letters of a page of notes: the name of a section.
  [/^\s*(?:\*\*|__)([^\s*_|][^*_|]{0,30})(?:\*\*|__)/, "[$1]"],
  // "Bar 1: Dm7": the number of a bar is told by its place.
  [/^\s*\d{1,3}\s?[-–]\s?\d{1,3}\s?[:.)]\s*/, ""],
  [/^\s*(?:bars?|measures?|mm?\.)\s*\d{1,3}(?:\s?[-–]\s?\d{1,3})?\s*[:.)]\s*/i, ""],
  // How many bars there are is told by the bars.
  [/(?<!\bN\.?C\.?\s*)[([]\s?\d{1,3}\s?(?:bars?|measures?)[)\]]\s*$/i, ""],
  // The full stop behind a last bar line, and a tempo before the first one.
  [/\|\.\s*$/, "|"],
  [/^\s*(?:[♩♪]|q)\.?\s?=\s?\d{2,3}\s*(?=\|)/i, ""],
  [/\bno chord\b\.?/gi, "N.C."],
  [/(?<=^|[\s|])N\/C\.?(?=[\s|]|$)/g, "N.C."],
  // "C add 9", "F7 sus 4"
  [/\b(add|sus) (\d{1,2})\b/g, "$1$2"],
  [/\(\s?N\.?C\.?\s?\)/gi, "N.C."],
];
/** A row of a table whose cells stand in quotation marks each. */
const QUOTED = /^\s*"[^"]*"(?: ?[,;\t] ?"[^"]*")+\s*$/;

/** A line in the signs of the chart format: full-width and raised letters plain, bar lines as "|". */
export function plainSigns(line: string): string {
  let plain = line.normalize("NFKC");
  if (QUOTED.test(plain)) plain = plain.replaceAll('"', "");
  for (const [pattern, sign] of WRAPPINGS) plain = plain.replace(pattern, sign);
  for (const [pattern, sign] of SIGNS) plain = plain.replace(pattern, sign);
  return plain;
}
