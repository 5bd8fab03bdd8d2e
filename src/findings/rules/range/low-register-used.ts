import { placesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule } from "../../rule.ts";

export const lowRegisterUsed: Rule = {
  id: "low-register-used",
  heading: "range",
  kind: "notice",
  measure: "share of solo notes below middle C",
  threshold: 0.08,
  reason: "Most right hands begin at middle C; one note in twelve below it is a choice [practice].",
  least: { notes: 32 },
  importance: 0.3,
  chance: "fact",
  find({ solo, account }, threshold) {
    const low = solo.filter((note) => note.pitch < 60);
    if (low.length / solo.length < threshold || low.length / solo.length > 0.5) return null;
    return {
      observed: low.length / solo.length,
      strength: beyond(low.length / solo.length, threshold, 0.2),
      evidence: ids(low),
      words: { places: placesInWords(low, account.alignment.choruses) },
    };
  },
  wording: ["The line goes below middle C as well, in {places}."],
  practice: null,
};
