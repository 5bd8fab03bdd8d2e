import { placesInWords, shareInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { type Rule, rule } from "../../rule.ts";

export const restsBreathe: Rule = rule({
  id: "rests-breathe",
  heading: "phrasing and shape",
  kind: "notice",
  measure: "share of the solo's time in which it rests",
  unit: "share",
  threshold: 0.25,
  reason: "Between a quarter and a half, more than seven open solos in ten [practice].",
  least: { notes: 16, phrases: 3, most: 0.55, middle: 0.36, full: 0.16 },
  importance: 0.8,
  chance: "fact",
  find({ account, phrases }, threshold, least) {
    const { rests } = account.rhythm;
    if (rests < threshold || rests > least.most) return null;
    const after = phrases
      .filter(({ phrase }) => phrase.restSeconds > 0)
      .map(({ notes }) => notes[notes.length - 1]);
    const ends = after.filter((note) => note !== undefined);
    return {
      observed: rests,
      strength: 1 - Math.min(1, Math.abs(rests - least.middle) / least.full),
      evidence: ids(ends),
      words: { share: shareInWords(rests), places: placesInWords(ends, account.alignment.choruses) },
    };
  },
  wording: [
    "The line is silent for {share} of the time (after {places}).",
    "Rests take up {share} of the time; listen to them after {places}.",
  ],
  practice: null,
});
