import type { AccountNote } from "../../../account/note.ts";
import type { AccountMotif } from "../../../account.ts";
import { placesInWords, timesInWords } from "../../../words/index.ts";
import { ids, motifStarts } from "../../facts.ts";
import { beyond, type Rule, rule } from "../../rule.ts";
import { melodic, notesOf } from "./melodic-motifs.ts";

export const motifNeverMoved: Rule = rule({
  id: "motif-never-moved",
  heading: "melodic and motivic development",
  kind: "practise",
  measure: "returns of a motif, all at the same pitch",
  unit: "times",
  threshold: 3,
  reason: "After three statements at one pitch a listener waits for it to move [practice].",
  least: { notes: 24, full: 4 },
  importance: 0.6,
  chance: "closed form",
  find(facts, threshold, least) {
    const motifs = melodic(facts);
    const stay = (motif: AccountMotif) => motif.occurrences.every((one) => one.transposition === 0);
    const motif = motifs.find((one) => one.occurrences.length >= threshold && stay(one));
    if (motif === undefined || motifs.some((one) => !stay(one))) return null;
    const starts = motifStarts(facts, motif);
    return {
      observed: motif.occurrences.length,
      strength: beyond(motif.occurrences.length, threshold - 1, least.full),
      evidence: ids(notesOf(facts, motif)),
      words: {
        times: timesInWords(motif.occurrences.length),
        places: placesInWords(starts, facts.account.alignment.choruses),
        move: isPlaced(notesOf(facts, motif))
          ? "carry it to the other placement with the same fingers"
          : "begin it on another note of the chord",
      },
    };
  },
  wording: [
    "You keep your idea, {times} on the very same keys ({places}). Now {move} and hear what the chord makes of it.",
  ],
  practice: {
    kind: "motif to every placement",
    title: "The same fingers, another place",
    text: "Your motif on every placement of the form, the fingering unchanged.",
  },
});

/** Whether the hand played it from placements: only then is there another one to carry it to. */
function isPlaced(notes: readonly AccountNote[]): boolean {
  return notes.filter((note) => note.placement !== null).length * 2 > notes.length;
}
