import { placesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule, rule } from "../../rule.ts";

/** MIDI number. */
const MIDDLE_C = 60;

export const lowRegisterUsed: Rule = rule({
  id: "low-register-used",
  heading: "range",
  kind: "notice",
  measure: "share of solo notes below middle C",
  unit: "share",
  threshold: 0.2,
  reason:
    "Most right hands begin at middle C; one note in five below it, more than seven open solos in ten, is a choice [practice].",
  least: { notes: 32, full: 0.2, most: 0.5 },
  importance: 0.3,
  chance: "fact",
  find({ solo, account }, threshold, least) {
    const low = solo.filter((note) => note.pitch < MIDDLE_C);
    if (low.length / solo.length < threshold || low.length / solo.length > least.most) return null;
    return {
      observed: low.length / solo.length,
      strength: beyond(low.length / solo.length, threshold, least.full),
      evidence: ids(low),
      words: { places: placesInWords(low, account.alignment.choruses) },
    };
  },
  wording: ["The line goes below middle C as well, in {places}."],
  practice: null,
});
