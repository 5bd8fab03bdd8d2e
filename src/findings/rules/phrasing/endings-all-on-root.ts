import { placesInWords, shareInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule } from "../../rule.ts";

export const endingsAllOnRoot: Rule = {
  id: "endings-all-on-root",
  heading: "phrasing and shape",
  kind: "practise",
  measure: "share of phrases that end on the chord's root",
  threshold: 0.6,
  reason: "With four chord tones to end on, more than half on one says full stop too often [practice].",
  least: { notes: 24, phrases: 5 },
  importance: 0.55,
  chance: "pitches shuffled",
  find({ phrases, account }, threshold) {
    const ends = phrases.map(({ notes }) => notes[notes.length - 1]).filter((note) => note !== undefined);
    const roots = ends.filter((note) => note.role === "root");
    if (roots.length / ends.length < threshold) return null;
    return {
      observed: roots.length / ends.length,
      strength: beyond(roots.length / ends.length, threshold, 0.4),
      evidence: ids(roots),
      words: {
        share: shareInWords(roots.length / ends.length),
        places: placesInWords(roots, account.alignment.choruses),
      },
    };
  },
  wording: [
    "{share} of your phrases end on the root ({places}), each like a full stop. End one on a third or a ninth and hear it ask for more.",
  ],
  practice: {
    kind: "call and answer",
    title: "Question marks",
    text: "End the first answer on the third, the second on the fifth, and only the last on the root.",
  },
};
