import type { AccountNote } from "../../../account.ts";
import { shareInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule, rule } from "../../rule.ts";

const roots = (notes: readonly AccountNote[]) => notes.filter((note) => note.role === "root");

export const rootsTooSafe: Rule = rule({
  id: "roots-too-safe",
  heading: "harmonic awareness",
  kind: "practise",
  measure: "share of solo notes that are the chord's root",
  unit: "share",
  threshold: 0.32,
  reason: "Twice the share that even use of a seven-tone scale would give (0.14) and more [practice].",
  least: { notes: 24, full: 0.2, shown: 16 },
  importance: 0.55,
  chance: { null: "pitches drawn", count: ({ solo }) => roots(solo).length / solo.length, than: "more" },
  find({ solo }, threshold, least) {
    const notes = roots(solo);
    const share = notes.length / solo.length;
    if (share < threshold) return null;
    return {
      observed: share,
      strength: beyond(share, threshold, least.full),
      evidence: ids(notes.slice(0, least.shown)),
      words: { share: shareInWords(share) },
    };
  },
  wording: [
    "{share} of your notes are the root of the chord. The bass has it already: start a phrase on the third, or end one on the ninth.",
  ],
  practice: {
    kind: "guide tones",
    title: "Leave the root to the bass",
    text: "One chorus in which no phrase begins or ends on a root.",
  },
});
