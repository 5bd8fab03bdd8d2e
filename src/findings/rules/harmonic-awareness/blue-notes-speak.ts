import type { AccountNote } from "../../../account.ts";
import { placesInWords, timesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule, rule } from "../../rule.ts";
import { choruses } from "./choruses-reached.ts";

const blue = (notes: readonly AccountNote[]) => notes.filter((note) => note.role === "blue");

export const blueNotesSpeak: Rule = rule({
  id: "blue-notes-speak",
  heading: "harmonic awareness",
  kind: "works",
  measure: "share of blue notes in a blues",
  unit: "share",
  threshold: 0.06,
  reason:
    "About one in sixteen gives each phrase or two its blue note; above a quarter it is no colour any more [practice].",
  least: { notes: 24, full: 0.12, sample: 3, most: 0.28 },
  importance: 0.55,
  chance: { null: "pitches drawn", count: ({ solo }) => blue(solo).length / solo.length, than: "more" },
  find({ account, solo }, threshold, least) {
    if (account.chart.idiom !== "blues") return null;
    const notes = blue(solo);
    const share = notes.length / solo.length;
    if (notes.length < least.sample || share < threshold || share > least.most) return null;
    return {
      observed: share,
      strength: beyond(share, threshold, least.full),
      evidence: ids(notes),
      words: { times: timesInWords(notes.length), places: placesInWords(notes, choruses(solo)) },
    };
  },
  wording: [
    "Blue notes colour the line {times} (hear {places}), more than the range of the solo alone would bring.",
  ],
  practice: null,
});
