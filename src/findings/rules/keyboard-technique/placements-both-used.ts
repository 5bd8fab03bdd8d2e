import { listInWords, placesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule } from "../../rule.ts";
import { notesOf } from "./placed-notes.ts";

export const placementsBothUsed: Rule = {
  id: "placements-both-used",
  heading: "keyboard technique",
  kind: "works",
  measure: "chords on which two or more fitting placements are used",
  threshold: 1,
  reason: "Each chord has at least two places for the hand (on the root and on the fifth) [practice].",
  least: { notes: 24 },
  importance: 0.65,
  chance: "pitches shuffled",
  find(facts, threshold) {
    const rich = facts.account.handFit.byChord.filter(
      (one) => one.used.filter((use) => use.notes >= 4).length >= 2,
    );
    if (rich.length < threshold || facts.account.handFit.share < 0.6) return null;
    const chords = new Set(rich.map((one) => one.chord));
    const placements = facts.account.placements.filter(
      (one) => one.chord !== null && chords.has(one.chord) && one.fitsChord,
    );
    const notes = notesOf(facts, placements);
    return {
      observed: rich.length,
      strength: beyond(rich.length, threshold - 1, 3),
      evidence: ids(notes.slice(0, 24)),
      words: {
        chords: listInWords(rich.slice(0, 3).map((one) => one.chord)),
        places: placesInWords(notes, facts.account.alignment.choruses),
      },
    };
  },
  wording: [
    "On {chords} the hand plays from more than one place ({places}).",
    "The hand moves with a plan: on {chords} it stands in more than one placement (see {places}).",
  ],
  practice: null,
};
