import { shareInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { type Rule, rule } from "../../rule.ts";
import { movesIn, shareOfSkips } from "./moves.ts";

export const stepsAndLeapsBalanced: Rule = rule({
  id: "steps-and-leaps-balanced",
  heading: "melodic and motivic development",
  kind: "works",
  measure: "share of intervals inside phrases larger than a whole step",
  unit: "share",
  threshold: 0.4,
  reason:
    "Between four and five and a half in ten, a line has both flow and corners [practice]; fewer skips are what most solos have (median of the open solos 0.37).",
  least: { notes: 24, shown: 12, sample: 20, most: 0.55, middle: 0.47, full: 0.1 },
  importance: 0.4,
  chance: { null: "pitches shuffled", count: shareOfSkips, than: "less" },
  find(facts, threshold, least) {
    const { all, skips: reached } = movesIn(facts);
    const skips = reached.length / Math.max(1, all);
    if (all < least.sample || skips < threshold || skips > least.most) return null;
    return {
      observed: skips,
      strength: 1 - Math.min(1, Math.abs(skips - least.middle) / least.full),
      evidence: ids(reached.slice(0, least.shown)),
      words: { share: shareInWords(skips) },
    };
  },
  wording: [
    "Steps and skips are in balance: {share} of the moves are a third or more, so the line has corners to hold on to.",
  ],
  practice: null,
});
