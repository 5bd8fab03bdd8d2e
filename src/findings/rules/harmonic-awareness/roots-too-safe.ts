import { shareInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule } from "../../rule.ts";

export const rootsTooSafe: Rule = {
  id: "roots-too-safe",
  heading: "harmonic awareness",
  kind: "practise",
  measure: "share of solo notes that are the chord's root",
  threshold: 0.32,
  reason: "Twice the share that even use of a seven-tone scale would give (0.14) and more [practice].",
  least: { notes: 24 },
  importance: 0.55,
  chance: "pitches drawn",
  find({ solo }, threshold) {
    const notes = solo.filter((note) => note.role === "root");
    const share = notes.length / solo.length;
    if (share < threshold) return null;
    return {
      observed: share,
      strength: beyond(share, threshold, 0.2),
      evidence: ids(notes.slice(0, 16)),
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
};
