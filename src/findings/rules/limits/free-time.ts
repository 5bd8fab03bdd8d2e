import { type Rule, rule } from "../../rule.ts";

export const freeTime: Rule = rule({
  id: "free-time",
  heading: "time and feel",
  kind: "notice",
  measure: "1 when the take was read without a beat",
  unit: "times",
  threshold: 1,
  reason: "Without a beat there is no early or late, no swing and no off-beat to speak of.",
  least: { notes: 1 },
  importance: 0.8,
  chance: "fact",
  find({ account }, threshold) {
    if ((account.alignment.method === "rubato" ? 1 : 0) < threshold) return null;
    return { strength: 1, evidence: [], words: {} };
  },
  wording: [
    "The take is in free time, so nothing is said about swing, beats and tempo; chords and phrases are read from what you play.",
  ],
  practice: null,
});
