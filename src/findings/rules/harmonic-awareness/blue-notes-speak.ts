import { placesInWords, timesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule } from "../../rule.ts";
import { choruses } from "./choruses-reached.ts";

export const blueNotesSpeak: Rule = {
  id: "blue-notes-speak",
  heading: "harmonic awareness",
  kind: "works",
  measure: "share of blue notes in a blues",
  threshold: 0.06,
  reason:
    "About one in sixteen gives each phrase or two its blue note; above a quarter it is no colour any more [practice].",
  least: { notes: 24 },
  importance: 0.55,
  chance: "pitches drawn",
  find({ account, solo }, threshold) {
    if (account.chart.idiom !== "blues") return null;
    const notes = solo.filter((note) => note.role === "blue");
    const share = notes.length / solo.length;
    if (notes.length < 3 || share < threshold || share > 0.28) return null;
    return {
      observed: share,
      strength: beyond(share, threshold, 0.12),
      evidence: ids(notes),
      words: { times: timesInWords(notes.length), places: placesInWords(notes, choruses(solo)) },
    };
  },
  wording: [
    "Blue notes are there as colour and not as wallpaper: {times} in all, well placed in {places}.",
    "The blue third and its friends come {times}, enough to say blues and few enough to matter ({places}).",
  ],
  practice: null,
};
