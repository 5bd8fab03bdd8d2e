import type { AccountNote } from "../../../account.ts";
import { placesInWords, timesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule, rule } from "../../rule.ts";
import { choruses } from "./choruses-reached.ts";

const anticipations = (notes: readonly AccountNote[]) =>
  notes.filter((note) => note.lineRole === "anticipation");

export const anticipationsUsed: Rule = rule({
  id: "anticipations-used",
  heading: "harmonic awareness",
  kind: "works",
  measure: "notes that play the next chord just before it comes",
  unit: "times",
  threshold: 3,
  reason: "Three show a habit of hearing ahead [practice].",
  least: { notes: 24, full: 5 },
  importance: 0.6,
  chance: { null: "pitches shuffled", count: ({ countOf }) => countOf("anticipation"), than: "more" },
  find({ solo }, threshold, least) {
    const notes = anticipations(solo);
    if (notes.length < threshold) return null;
    return {
      observed: notes.length,
      strength: beyond(notes.length, threshold - 1, least.full),
      evidence: ids(notes),
      words: { times: timesInWords(notes.length), places: placesInWords(notes, choruses(solo)) },
    };
  },
  wording: ["{times} a note of the next chord is there just before the chord itself ({places})."],
  practice: null,
});
