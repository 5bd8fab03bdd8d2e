/** How often something is played, in signs and in words: "x3", "3x", "play 3 times", "twice". */

const WORDS: Readonly<Record<string, string>> = {
  twice: "2",
  two: "2",
  three: "3",
  four: "4",
  five: "5",
  six: "6",
  seven: "7",
  eight: "8",
};
const NUMBER_WORD = "(twice|(?:two|three|four|five|six|seven|eight)(?=\\s+times))(?:\\s+times)?(?![a-z])";
const PLAIN = `(?:[x*]\\s?(\\d{1,3})|(\\d{1,3})\\s?(?:x(?![a-z])|times)|${NUMBER_WORD})`;

/** A number of times at a place of a line of bars, in brackets or not. */
export const TIMES = `(?:[([]\\s?(?:play(?:ed)?\\s)?${PLAIN}\\s?[)\\]]|(?:play(?:ed)?\\s)?${PLAIN})`;

/** The digits of the number that `TIMES` has matched. */
export function timesOf(match: RegExpExecArray): string {
  const found = match.slice(1).find((group) => group !== undefined)!;
  return WORDS[found.toLowerCase()] ?? found;
}

const ALONE = new RegExp(`^\\W*(?:play(?:ed)?\\s)?${PLAIN}\\W*$`, "i");

/** The number of times that words say and nothing else, "3x", "(Play 4 times)"; null for other words. */
export function timesAlone(words: string): number | null {
  const found = ALONE.exec(words);
  return found === null ? null : Number(timesOf(found));
}

const IN_DIGITS = /(?<![\p{L}\d])(?:x\s?\d{1,2}|\d{1,2}\s?x|\d{1,2} times)(?![\p{L}\d])/iu;
/** "Think twice" may be a title; "play twice" and "(twice)" are none. */
const IN_WORDS =
  /(?:\b(?:play(?:ed)?|repeat(?:ed)?)\s+|[([]\s?)(?:twice|(?:two|three|four|five|six|seven|eight)\s+times)(?![\p{L}\d])/iu;

/** How often a line of words says that something is played: "Intro (4x)"; null when it says nothing of that. */
export function timesInWords(line: string): string | null {
  return (IN_DIGITS.exec(line) ?? IN_WORDS.exec(line))?.[0].trim() ?? null;
}
