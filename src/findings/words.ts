import type { AccountNote } from "../account.ts";

/** "a third", "two thirds", "nearly all": a share as a teacher says it, with no false exactness. */
export function shareInWords(share: number): string {
  if (share >= 0.995) return "all";
  if (share >= 0.9) return "nearly all";
  if (share >= 0.78) return "four fifths";
  if (share >= 0.71) return "three quarters";
  if (share >= 0.63) return "two thirds";
  if (share >= 0.55) return "more than half";
  if (share >= 0.45) return "about half";
  if (share >= 0.37) return "two fifths";
  if (share >= 0.29) return "about a third";
  if (share >= 0.22) return "a quarter";
  if (share >= 0.17) return "about a fifth";
  if (share >= 0.08) return "about a tenth";
  if (share > 0) return "very little";
  return "none";
}

const NUMBERS = [
  "no",
  "one",
  "two",
  "three",
  "four",
  "five",
  "six",
  "seven",
  "eight",
  "nine",
  "ten",
  "eleven",
  "twelve",
];

/** Small numbers as words, others as figures. */
export function countInWords(count: number): string {
  return NUMBERS[count] ?? String(count);
}

/** "not once", "once", "twice", "three times". */
export function timesInWords(count: number): string {
  if (count === 0) return "not once";
  if (count === 1) return "once";
  if (count === 2) return "twice";
  return `${countInWords(count)} times`;
}

const INTERVALS = [
  "",
  "a half step",
  "a whole step",
  "a minor third",
  "a third",
  "a fourth",
  "a tritone",
  "a fifth",
  "a minor sixth",
  "a sixth",
  "a minor seventh",
  "a major seventh",
] as const;

/** "two octaves and a third": an interval in semitones as a musician says it. */
export function intervalInWords(semitones: number): string {
  const whole = Math.round(semitones);
  const octaves = Math.floor(whole / 12);
  const rest = INTERVALS[whole % 12]!;
  if (octaves === 0) return rest === "" ? "one note" : rest;
  const octaveWords = octaves === 1 ? "an octave" : `${countInWords(octaves)} octaves`;
  return rest === "" ? octaveWords : `${octaveWords} and ${rest}`;
}

/**
 * "bars 2 and 5 of chorus 1, bar 7 of chorus 2": where a few notes are, each bar once, at most `most` of them, with
 * "among others" for the rest. Choruses are named only when the take has several.
 */
export function placesInWords(notes: readonly AccountNote[], choruses: number, most = 3): string {
  const told = examplesInWords(notes, choruses, most);
  return placesOf(notes).length > most ? `${told}, among others` : told;
}

/** The same for a sentence that gives examples anyway ("as in"): nothing is said of the rest. */
export function examplesInWords(notes: readonly AccountNote[], choruses: number, most = 3): string {
  const byChorus = new Map<number, number[]>();
  for (const { chorus, bar } of placesOf(notes).slice(0, most)) {
    byChorus.set(chorus, [...(byChorus.get(chorus) ?? []), bar]);
  }
  const parts = [...byChorus].map(([chorus, list]) => {
    const bars = list.filter((bar) => bar > 0).map(String);
    const ofChorus = choruses > 1 ? ` of chorus ${chorus}` : "";
    const named =
      bars.length === 0 ? [] : [`${bars.length > 1 ? "bars" : "bar"} ${listInWords(bars)}${ofChorus}`];
    return listInWords(list.includes(0) ? ["the pickup", ...named] : named);
  });
  return parts.length === 2 ? parts.join(", ") : listInWords(parts);
}

/** Each bar once, the pickup as bar 0. */
function placesOf(notes: readonly AccountNote[]): { chorus: number; bar: number }[] {
  const places = new Map<string, { chorus: number; bar: number }>();
  for (const note of notes) {
    const bar = Math.max(0, note.bar);
    places.set(`${note.chorus}:${bar}`, { chorus: note.chorus, bar });
  }
  return [...places.values()];
}

/** "a, b and c". */
export function listInWords(items: readonly string[]): string {
  if (items.length <= 1) return items[0] ?? "";
  return `${items.slice(0, -1).join(", ")} and ${items[items.length - 1]}`;
}

/** Fills the braces of a template; a brace without a word is an error of the rule, not of the take. */
export function fill(template: string, words: Readonly<Record<string, string>>): string {
  const text = template.replace(/\{(\w+)\}/g, (_, name: string) => {
    const word = words[name];
    if (word === undefined) throw new Error(`no word for {${name}} in "${template}"`);
    return word;
  });
  // A filled word may open a sentence.
  return text.replace(
    /(^|[.?!] )([a-z])/g,
    (_, before: string, letter: string) => before + letter.toUpperCase(),
  );
}
