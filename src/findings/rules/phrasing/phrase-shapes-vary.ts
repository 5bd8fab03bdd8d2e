import { listInWords, placesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule } from "../../rule.ts";

export const phraseShapesVary: Rule = {
  id: "phrase-shapes-vary",
  heading: "phrasing and shape",
  kind: "works",
  measure: "different outlines among the phrases of four notes or more",
  threshold: 4,
  reason: "Four of the six outlines in use [practice].",
  least: { notes: 24, phrases: 6 },
  importance: 0.4,
  chance: "pitches shuffled",
  find({ phrases, account }, threshold) {
    const shaped = phrases.filter(({ notes }) => notes.length >= 4);
    const shapes = [...new Set(shaped.map(({ phrase }) => phrase.shape))];
    if (shapes.length < threshold) return null;
    const shown = shapes.map((shape) => shaped.find(({ phrase }) => phrase.shape === shape)!);
    return {
      observed: shapes.length,
      strength: beyond(shapes.length, threshold - 1, 3),
      evidence: ids(shown.flatMap(({ notes }) => notes)),
      words: {
        shapes: listInWords(shapes),
        places: placesInWords(
          shown.flatMap(({ notes }) => notes.slice(0, 1)),
          account.alignment.choruses,
        ),
      },
    };
  },
  wording: [
    "The outlines differ ({shapes}): look at the phrases in {places} and see how each draws another line.",
  ],
  practice: null,
};
