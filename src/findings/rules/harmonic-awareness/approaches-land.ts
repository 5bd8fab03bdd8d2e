import type { AccountNote } from "../../../account.ts";
import { examplesInWords, timesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule, rule } from "../../rule.ts";
import { choruses } from "./choruses-reached.ts";

const approaches = (notes: readonly AccountNote[]) => notes.filter((note) => note.lineRole === "approach");

export const approachesLand: Rule = rule({
  id: "approaches-land",
  heading: "harmonic awareness",
  kind: "works",
  measure: "share of solo notes that approach a chord tone by step",
  unit: "share",
  threshold: 0.1,
  reason: "One in ten: about one approach a bar in a line of eighths [practice].",
  least: { notes: 24, full: 0.15, sample: 4 },
  importance: 0.5,
  chance: {
    null: "pitches shuffled",
    count: ({ countOf, solo }) => countOf("approach") / solo.length,
    than: "more",
  },
  find({ solo }, threshold, least) {
    const notes = approaches(solo);
    const share = notes.length / solo.length;
    if (notes.length < least.sample || share < threshold) return null;
    return {
      observed: share,
      strength: beyond(share, threshold, least.full),
      evidence: ids(notes),
      words: { times: timesInWords(notes.length), places: examplesInWords(notes, choruses(solo)) },
    };
  },
  wording: [
    "You lead into chord tones by step, {times}: in {places} a listener hears where the line is going before it arrives.",
    "Approach notes lead your line to its targets ({times}, for instance in {places}).",
  ],
  practice: null,
});
