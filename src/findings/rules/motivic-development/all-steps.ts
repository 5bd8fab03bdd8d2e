import { placesInWords, shareInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule, rule } from "../../rule.ts";
import { movesIn, shareOfSteps } from "./moves.ts";

export const allSteps: Rule = rule({
  id: "all-steps",
  heading: "melodic and motivic development",
  kind: "practise",
  measure: "share of intervals inside phrases that are steps",
  unit: "share",
  threshold: 0.8,
  reason: "Four of five moves by step: the line has no corners [practice].",
  least: { notes: 32, full: 0.2, shown: 16, sample: 24 },
  importance: 0.6,
  chance: { null: "pitches shuffled", count: shareOfSteps, than: "more" },
  find(facts, threshold, least) {
    const { account } = facts;
    const { all, steps } = movesIn(facts);
    if (all < least.sample || steps.length / all < threshold) return null;
    return {
      observed: steps.length / all,
      strength: beyond(steps.length / all, threshold, least.full),
      evidence: ids(steps.slice(0, least.shown)),
      words: {
        share: shareInWords(steps.length / all),
        places: placesInWords(steps, account.alignment.choruses, 2),
      },
    };
  },
  wording: [
    "{share} of your moves are steps. Let a phrase open with a third or a fifth, as if it called someone across the street.",
  ],
  practice: {
    kind: "call and answer",
    title: "Open with a skip",
    text: "Answer each given bar with a phrase whose first move is a third or more.",
  },
});
