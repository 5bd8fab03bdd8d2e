import type { AccountNote } from "../../../account.ts";
import { placesInWords, shareInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule, rule } from "../../rule.ts";
import { endingShare, endingsOf } from "./endings.ts";

const isOpen = (note: AccountNote) => note.guideTone || note.role === "tension";

export const endingsOpen: Rule = rule({
  id: "endings-open",
  heading: "phrasing and shape",
  kind: "works",
  measure: "share of phrases that end on a third, a seventh or a tension",
  unit: "share",
  threshold: 0.5,
  reason: "Half of the phrases ask for more [practice].",
  least: { notes: 24, phrases: 5, full: 0.4 },
  importance: 0.4,
  chance: { null: "pitches shuffled", count: ({ phrases }) => endingShare(phrases, isOpen), than: "more" },
  find({ phrases, account }, threshold, least) {
    const ends = endingsOf(phrases);
    const open = ends.filter(isOpen);
    if (open.length / ends.length < threshold) return null;
    return {
      observed: open.length / ends.length,
      strength: beyond(open.length / ends.length, threshold, least.full),
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
});
