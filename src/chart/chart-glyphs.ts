/** The many signs that people type or paste for the few of the chart format. */

const SIGNS: readonly (readonly [RegExp, string])[] = [
  [/[\u200b-\u200d\u2060\ufeff]/g, ""],
  [/[“”„″]/g, '"'],
  [/×/g, "x"],
  // The musical symbols of Unicode 1D100 to 1D107: bar lines, and the two repeat signs.
  [/\u{1d100}|\u{1d104}|\u{1d105}/gu, "|"],
  [/\u{1d101}|\u{1d102}|\u{1d103}/gu, "||"],
  [/\u{1d106}/gu, "|:"],
  [/\u{1d107}/gu, ":|"],
  [/[│┃¦∣❘┆┇┊┋]/g, "|"],
  [/[‖║∥]/g, "||"],
  [/\[\||\|\]/g, "||"],
  [/\|{2,}/g, "||"],
  [/\|\|:/g, "|:"],
  [/:\|\|/g, ":|"],
  [/⊕/g, "\u{1d10c}"],
];

/** A line in the signs of the chart format: full-width and raised letters plain, bar lines as "|". */
export function plainSigns(line: string): string {
  let plain = line.normalize("NFKC");
  for (const [pattern, sign] of SIGNS) plain = plain.replace(pattern, sign);
  return plain;
}
