import { placesInWords, timesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule } from "../../rule.ts";
import { choruses } from "./choruses-reached.ts";

export const enclosuresUsed: Rule = {
  id: "enclosures-used",
  heading: "harmonic awareness",
  kind: "works",
  measure: "chord tones reached from both sides",
  threshold: 2,
  reason: "Twice is not chance: it is in the vocabulary [practice].",
  least: { notes: 16 },
  importance: 0.6,
  chance: "pitches shuffled",
  find({ solo }, threshold) {
    const targets = [...new Set(solo.filter((n) => n.lineRole === "enclosure").map((n) => n.target))];
    if (targets.length < threshold) return null;
    const notes = solo.filter((note) => note.lineRole === "enclosure");
    return {
      observed: targets.length,
      strength: beyond(targets.length, threshold - 1, 4),
      evidence: ids(notes),
      words: { times: timesInWords(targets.length), places: placesInWords(notes, choruses(solo)) },
    };
  },
  wording: [
    "You circle a chord tone from above and below before you land, {times}: {places}. It makes the arrival feel earned.",
  ],
  practice: null,
};
