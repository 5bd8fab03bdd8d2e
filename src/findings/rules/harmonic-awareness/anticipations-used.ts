import { placesInWords, timesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule } from "../../rule.ts";
import { choruses } from "./choruses-reached.ts";

export const anticipationsUsed: Rule = {
  id: "anticipations-used",
  heading: "harmonic awareness",
  kind: "works",
  measure: "notes that play the next chord just before it comes",
  threshold: 3,
  reason: "Three show a habit of hearing ahead [practice].",
  least: { notes: 24 },
  importance: 0.6,
  chance: "pitches shuffled",
  find({ solo }, threshold) {
    const notes = solo.filter((note) => note.lineRole === "anticipation");
    if (notes.length < threshold) return null;
    return {
      observed: notes.length,
      strength: beyond(notes.length, threshold - 1, 5),
      evidence: ids(notes),
      words: { times: timesInWords(notes.length), places: placesInWords(notes, choruses(solo)) },
    };
  },
  wording: ["{times} a note of the next chord is there just before the chord itself ({places})."],
  practice: null,
};
