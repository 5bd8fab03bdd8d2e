import { listInWords, placesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule, rule } from "../../rule.ts";
import { keyboardPlayed } from "./keyboard-played.ts";
import { notesOf } from "./placed-notes.ts";

export const placementsBothUsed: Rule = rule({
  id: "placements-both-used",
  heading: "keyboard technique",
  kind: "notice",
  measure: "chords on which two or more fitting placements are used",
  unit: "chords",
  threshold: 2,
  reason:
    "Each chord has at least two places for the hand (on the root and on the fifth) [practice]; eight notes in each are a bar of eighths, and on two chords it is a habit.",
  least: { notes: 24, full: 3, shown: 24, sample: 8, share: 0.6, named: 3 },
  importance: 0.65,
  chance: "fact",
  onChords: true,
  find(facts, threshold, least) {
    if (!keyboardPlayed(facts)) return null;
    const rich = facts.account.handFit.byChord.filter(
      (one) => one.used.filter((use) => use.notes >= least.sample).length >= 2,
    );
    if (rich.length < threshold || facts.account.handFit.share < least.share) return null;
    const chords = new Set(rich.map((one) => one.chord));
    const placements = facts.account.placements.filter(
      (one) => one.chord !== null && chords.has(one.chord) && one.fitsChord,
    );
    const notes = notesOf(facts, placements);
    return {
      observed: rich.length,
      strength: beyond(rich.length, threshold - 1, least.full),
      evidence: ids(notes.slice(0, least.shown)),
      words: {
        chords: listInWords(rich.slice(0, least.named).map((one) => one.chord)),
        places: placesInWords(notes, facts.account.alignment.choruses),
      },
    };
  },
  wording: ["On {chords} the hand plays from more than one place ({places})."],
  practice: null,
});
