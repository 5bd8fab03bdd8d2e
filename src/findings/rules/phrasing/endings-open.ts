import { placesInWords, shareInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule } from "../../rule.ts";

export const endingsOpen: Rule = {
  id: "endings-open",
  heading: "phrasing and shape",
  kind: "works",
  measure: "share of phrases that end on a third, a seventh or a tension",
  threshold: 0.5,
  reason: "Half of the phrases ask for more [practice].",
  least: { notes: 24, phrases: 5 },
  importance: 0.4,
  chance: "pitches shuffled",
  find({ phrases, account }, threshold) {
    const ends = phrases.map(({ notes }) => notes[notes.length - 1]).filter((note) => note !== undefined);
    const open = ends.filter((note) => note.guideTone || note.role === "tension");
    if (open.length / ends.length < threshold) return null;
    return {
      observed: open.length / ends.length,
      strength: beyond(open.length / ends.length, threshold, 0.4),
      evidence: ids(open),
      words: {
        share: shareInWords(open.length / ends.length),
        places: placesInWords(open, account.alignment.choruses),
      },
    };
  },
  wording: [
    "{share} of your phrases end open, on a third, a seventh or a colour ({places}), and make one want the next.",
  ],
  practice: null,
};
