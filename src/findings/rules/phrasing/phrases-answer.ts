import { placesInWords, timesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule, rule } from "../../rule.ts";

export const phrasesAnswer: Rule = rule({
  id: "phrases-answer",
  heading: "phrasing and shape",
  kind: "works",
  measure: "share of phrases that answer the one before",
  unit: "share",
  threshold: 0.3,
  reason: "Nearly one in three: a conversation rather than a list [practice].",
  least: { notes: 16, phrases: 4, full: 0.4 },
  importance: 0.85,
  chance: {
    null: "pitches shuffled",
    count: ({ answers, phrases }) => answers / phrases.length,
    than: "more",
  },
  find({ phrases, account }, threshold, least) {
    const answers = phrases.filter(({ phrase }) => phrase.answers !== null);
    const share = answers.length / phrases.length;
    if (answers.length < 2 || share < threshold) return null;
    const notes = answers.flatMap((one) => one.notes);
    return {
      observed: share,
      strength: beyond(share, threshold, least.full),
      evidence: ids(notes),
      words: {
        times: timesInWords(answers.length),
        places: placesInWords(
          answers.flatMap((one) => one.notes.slice(0, 1)),
          account.alignment.choruses,
        ),
      },
    };
  },
  wording: [
    "Your phrases talk to each other: {times} one answers the phrase before it ({places}).",
    "Call and answer is at work: the phrases that start in {places} reply to what came before.",
  ],
  practice: null,
});
