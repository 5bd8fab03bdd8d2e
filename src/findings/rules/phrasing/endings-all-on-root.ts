import type { AccountNote } from "../../../account.ts";
import { placesInWords, shareInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule, rule } from "../../rule.ts";
import { endingShare, endingsOf } from "./endings.ts";

const isRoot = (note: AccountNote) => note.role === "root";

export const endingsAllOnRoot: Rule = rule({
  id: "endings-all-on-root",
  heading: "phrasing and shape",
  kind: "practise",
  measure: "share of phrases that end on the chord's root",
  unit: "share",
  threshold: 0.6,
  reason: "With four chord tones to end on, more than half on one says full stop too often [practice].",
  least: { notes: 24, phrases: 5, full: 0.4 },
  importance: 0.55,
  chance: { null: "pitches shuffled", count: ({ phrases }) => endingShare(phrases, isRoot), than: "more" },
  find({ phrases, account }, threshold, least) {
    const ends = endingsOf(phrases);
    const roots = ends.filter(isRoot);
    if (roots.length / ends.length < threshold) return null;
    return {
      observed: roots.length / ends.length,
      strength: beyond(roots.length / ends.length, threshold, least.full),
      evidence: ids(roots),
      words: {
        share: shareInWords(roots.length / ends.length),
        places: placesInWords(roots, account.alignment.choruses),
      },
    };
  },
  wording: [
    "{share} of your phrases end on the root ({places}), each like a full stop. End one on a third or a ninth and hear it ask for more.",
  ],
  practice: {
    kind: "call and answer",
    title: "Question marks",
    text: "End the first answer on the third, the second on the fifth, and only the last on the root.",
  },
});
