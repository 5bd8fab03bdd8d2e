import { countInWords, placesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule, rule } from "../../rule.ts";

export const phrasesDoNotAnswer: Rule = rule({
  id: "phrases-do-not-answer",
  heading: "phrasing and shape",
  kind: "practise",
  measure: "share of phrases that answer the one before",
  unit: "share",
  threshold: 0.1,
  reason: "Fewer than one in ten, in eight phrases or more, is a list of ideas [practice].",
  least: { notes: 32, phrases: 8, full: -0.1, sample: 4 },
  importance: 0.65,
  chance: {
    null: "pitches shuffled",
    count: ({ answers, phrases }) => answers / phrases.length,
    than: "less",
  },
  find({ phrases, account }, threshold, least) {
    const answers = phrases.filter(({ phrase }) => phrase.answers !== null);
    if (answers.length / phrases.length > threshold) return null;
    const first = phrases.find(({ notes }) => notes.length >= least.sample) ?? phrases[0]!;
    return {
      observed: answers.length / phrases.length,
      strength: beyond(answers.length / phrases.length, threshold, least.full),
      evidence: ids(first.notes),
      words: {
        count: countInWords(phrases.length),
        places: placesInWords(first.notes.slice(0, 1), account.alignment.choruses),
      },
    };
  },
  wording: [
    "Of {count} phrases hardly one takes up the phrase before it. Ask with the phrase in {places}, wait, and answer in the same rhythm.",
  ],
  practice: {
    kind: "call and answer",
    title: "Ask and answer",
    text: "The printed bar asks; answer it in the empty bar, first with the same rhythm, then with your own.",
  },
});
