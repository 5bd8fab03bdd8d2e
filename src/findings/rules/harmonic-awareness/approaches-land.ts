import { examplesInWords, timesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule } from "../../rule.ts";
import { choruses } from "./choruses-reached.ts";

export const approachesLand: Rule = {
  id: "approaches-land",
  heading: "harmonic awareness",
  kind: "works",
  measure: "share of solo notes that approach a chord tone by step",
  threshold: 0.1,
  reason: "One in ten: about one approach a bar in a line of eighths [practice].",
  least: { notes: 24 },
  importance: 0.5,
  chance: "pitches shuffled",
  find({ solo }, threshold) {
    const notes = solo.filter((note) => note.lineRole === "approach");
    const share = notes.length / solo.length;
    if (notes.length < 4 || share < threshold) return null;
    return {
      observed: share,
      strength: beyond(share, threshold, 0.15),
      evidence: ids(notes),
      words: { times: timesInWords(notes.length), places: examplesInWords(notes, choruses(solo)) },
    };
  },
  wording: [
    "You lead into chord tones by step, {times}: in {places} a listener hears where the line is going before it arrives.",
    "Approach notes lead your line to its targets ({times}, for instance in {places}).",
  ],
  practice: null,
};
