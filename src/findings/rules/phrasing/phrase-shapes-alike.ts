import type { AccountPhrase } from "../../../account.ts";
import { placesInWords, shareInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule, rule } from "../../rule.ts";
import { commonest, commonestShare } from "./outlines.ts";

const OUTLINES: Readonly<Record<AccountPhrase["shape"], string>> = {
  arch: "rise and fall again",
  valley: "fall and rise again",
  rising: "rise",
  falling: "fall",
  level: "stay level",
  wave: "move in waves",
};

export const phraseShapesAlike: Rule = rule({
  id: "phrase-shapes-alike",
  heading: "phrasing and shape",
  kind: "practise",
  measure: "share of phrases of four notes or more with the same outline",
  unit: "share",
  threshold: 0.75,
  reason: "Three in four draw the same line [practice].",
  least: { notes: 32, phrases: 6, full: 0.25, sample: 6 },
  importance: 0.5,
  chance: { null: "pitches shuffled", count: commonestShare, than: "more" },
  find(facts, threshold, least) {
    const { shaped, shape, count } = commonest(facts);
    if (shaped.length < least.sample || count / shaped.length < threshold) return null;
    const alike = shaped.filter((one) => one.shape === shape);
    return {
      observed: count / shaped.length,
      strength: beyond(count / shaped.length, threshold, least.full),
      evidence: ids(alike.flatMap(({ notes }) => notes)),
      words: {
        share: shareInWords(count / shaped.length),
        shape: OUTLINES[shape],
        places: placesInWords(
          alike.flatMap(({ notes }) => notes.slice(0, 1)),
          facts.account.alignment.choruses,
        ),
      },
    };
  },
  wording: [
    "{share} of your phrases {shape} ({places}). Draw the opposite line in the air with a finger, then play it.",
  ],
  practice: {
    kind: "call and answer",
    title: "Answer with the other outline",
    text: "Where the printed bar rises, your answer falls, and the other way round.",
  },
});
