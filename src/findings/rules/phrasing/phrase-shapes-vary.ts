import { listInWords, placesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule, rule } from "../../rule.ts";
import { shapedPhrases } from "./outlines.ts";

export const phraseShapesVary: Rule = rule({
  id: "phrase-shapes-vary",
  heading: "phrasing and shape",
  kind: "works",
  measure: "different outlines among the phrases of four notes or more",
  unit: "outlines",
  threshold: 4,
  reason: "Four of the six outlines in use [practice].",
  least: { notes: 24, phrases: 6, full: 3 },
  importance: 0.4,
  chance: {
    null: "pitches shuffled",
    count: (line) => new Set(shapedPhrases(line).map(({ shape }) => shape)).size,
    than: "more",
  },
  find(facts, threshold, least) {
    const shaped = shapedPhrases(facts);
    const shapes = [...new Set(shaped.map(({ shape }) => shape))];
    if (shapes.length < threshold) return null;
    const shown = shapes.map((shape) => shaped.find((one) => one.shape === shape)!);
    return {
      observed: shapes.length,
      strength: beyond(shapes.length, threshold - 1, least.full),
      evidence: ids(shown.flatMap(({ notes }) => notes)),
      words: {
        shapes: listInWords(shapes),
        places: placesInWords(
          shown.flatMap(({ notes }) => notes.slice(0, 1)),
          facts.account.alignment.choruses,
        ),
      },
    };
  },
  wording: ["The outlines of the phrases differ: {shapes} (see {places})."],
  practice: null,
});
