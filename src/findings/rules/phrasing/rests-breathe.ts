import { median, sum } from "d3-array";
import type { AccountPhrase } from "../../../account.ts";
import { counted, countInWords, placesInWords, shareInWords } from "../../../words/index.ts";
import { ids, type PhraseFacts } from "../../facts.ts";
import { type Rule, rule } from "../../rule.ts";

export const restsBreathe: Rule = rule({
  id: "rests-breathe",
  heading: "phrasing and shape",
  kind: "notice",
  measure: "share of the solo's time in which it rests",
  unit: "share",
  threshold: 0.25,
  reason:
    "Between a quarter and a half, more than seven open solos in ten [practice]; said so often that other notices go before it.",
  least: { notes: 16, phrases: 3, most: 0.55, middle: 0.36, full: 0.16 },
  importance: 0.4,
  chance: "fact",
  find({ account, phrases }, threshold, least) {
    const { share, sure } = sureRests(phrases);
    const rests = account.rhythm.rests * share;
    if (rests < threshold || rests > least.most) return null;
    const ends = sure.flatMap(({ notes }) => notes.slice(-1));
    return {
      observed: rests,
      strength: 1 - Math.min(1, Math.abs(rests - least.middle) / least.full),
      evidence: ids(ends),
      words: {
        share: shareInWords(rests),
        phrase: lengthOfPhrases(phrases.map(({ phrase }) => phrase)),
        places: placesInWords(ends, account.alignment.choruses),
      },
    };
  },
  wording: [
    "Phrases of {phrase}, and silence for {share} of the time (after {places}).",
    "You play for {phrase} at a time and rest for {share} of the whole; listen to the rests after {places}.",
  ],
  practice: null,
});

/**
 * Phrases whose silence is sure, since the notes on both its sides were heard surely: where a note may sound that was
 * not, it may be no silence. `share` is theirs of all silence between the phrases, 1 where every note is sure.
 */
function sureRests(phrases: readonly PhraseFacts[]): { share: number; sure: readonly PhraseFacts[] } {
  const rests = phrases.filter(({ phrase }) => phrase.restSeconds > 0);
  const sure = rests.filter(
    (one) => !one.unsureEnd && phrases[phrases.indexOf(one) + 1]?.unsureStart !== true,
  );
  const whole = sum(rests, ({ phrase }) => phrase.restSeconds);
  return { sure, share: whole > 0 ? sum(sure, ({ phrase }) => phrase.restSeconds) / whole : 1 };
}

/** What up to three half bars are called. */
const SHORT = ["half a bar", "half a bar", "a bar", "a bar and a half"] as const;

/** The usual length of a phrase in halves of a bar, "about two and a half bars"; in free time in seconds. */
function lengthOfPhrases(phrases: readonly AccountPhrase[]): string {
  const bars = median(phrases.flatMap((phrase) => phrase.bars ?? []));
  if (bars === undefined) {
    return `about ${counted(Math.round(median(phrases, ({ seconds }) => seconds)!), "second")}`;
  }
  const halves = Math.round(2 * bars);
  const whole = countInWords(Math.floor(halves / 2));
  return `about ${SHORT[halves] ?? `${whole}${halves % 2 === 1 ? " and a half" : ""} bars`}`;
}
