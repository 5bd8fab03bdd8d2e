import { ids } from "../../facts.ts";
import { type Rule, rule } from "../../rule.ts";

export const takeIsShort: Rule = rule({
  id: "take-is-short",
  heading: "phrasing and shape",
  kind: "notice",
  measure: "number of solo notes",
  unit: "notes",
  threshold: 24,
  reason: "Most rules here need about two dozen notes to speak at all [practice].",
  least: { notes: 1 },
  importance: 1,
  chance: "fact",
  find({ solo }, threshold) {
    if (solo.length >= threshold) return null;
    return { strength: 1, evidence: ids(solo), words: { notes: String(solo.length) } };
  },
  wording: [
    "This is a short take ({notes} notes), so little is said about habits. A chorus or two more would tell more.",
  ],
  practice: null,
});
