import { degreeName } from "../../../chart/index.ts";
import { examplesInWords, listInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule } from "../../rule.ts";
import { choruses } from "./choruses-reached.ts";

export const coloursHeld: Rule = {
  id: "colours-held",
  heading: "harmonic awareness",
  kind: "works",
  measure: "tensions or blue notes that stand for themselves, for each hundred notes",
  threshold: 8,
  reason: "One in twelve: a colour in nearly every phrase [practice].",
  least: { notes: 24 },
  importance: 0.5,
  chance: "pitches shuffled",
  find({ solo }, threshold) {
    const notes = solo.filter((note) => note.lineRole === "held colour" && note.role === "tension");
    const rate = (100 * notes.length) / solo.length;
    if (notes.length < 3 || rate < threshold) return null;
    const degrees = [...new Set(notes.map((note) => note.degree!))].slice(0, 3);
    return {
      observed: rate,
      strength: beyond(rate, threshold, 8),
      evidence: ids(notes),
      words: {
        degrees: listInWords(degrees.map((degree) => `the ${degreeName(degree)}`)),
        places: examplesInWords(notes, choruses(solo)),
      },
    };
  },
  wording: ["You rest on colours, {degrees}, and let them ring, as in {places}."],
  practice: null,
};
