import { placesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule } from "../../rule.ts";

export const lastPhraseFirst: Rule = {
  id: "last-phrase-first",
  heading: "phrasing and shape",
  kind: "practise",
  measure: "notes of the last phrase",
  threshold: 4,
  reason:
    "A last phrase of four notes or more can open the next solo, so that takes grow out of each other [practice].",
  least: { notes: 24, phrases: 3 },
  importance: 0.13,
  find({ phrases, account }, threshold) {
    const last = phrases[phrases.length - 1];
    if (last === undefined || last.notes.length < threshold) return null;
    return {
      strength: beyond(last.notes.length, threshold - 1, 6),
      evidence: ids(last.notes),
      words: { places: placesInWords(last.notes.slice(0, 1), account.alignment.choruses) },
    };
  },
  wording: [
    "Begin the next solo with the phrase that ended this one (from {places}) and see where it leads from there.",
  ],
  practice: {
    kind: "call and answer",
    title: "The end as a beginning",
    text: "The printed bar asks; each answer must begin with its last two notes.",
  },
};
