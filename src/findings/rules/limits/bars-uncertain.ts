import { beyond, type Rule, rule } from "../../rule.ts";

export const barsUncertain: Rule = rule({
  id: "bars-uncertain",
  heading: "time and feel",
  kind: "notice",
  measure: "confidence that the bars lie where the account puts them, 0 to 1",
  unit: "share",
  threshold: 0.6,
  reason: "Below it one bar in three or so may stand in the wrong place [practice].",
  least: { notes: 1 },
  importance: 1,
  chance: "fact",
  find({ account }, threshold) {
    if (account.alignment.confidence >= threshold) return null;
    return {
      observed: account.alignment.confidence,
      strength: beyond(account.alignment.confidence, threshold, -threshold),
      evidence: [],
      words: {},
    };
  },
  wording: [
    "It is not certain that the bar lines lie where this page puts them. Pin one or two bars by hand before you trust what is said about beats and chords.",
  ],
  practice: null,
});
