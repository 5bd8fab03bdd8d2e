import type { AccountMotif, AccountNote } from "../../../account.ts";
import { between, type Facts, ids } from "../../facts.ts";

/** Fingers alone are no melody: what they do on other keys is said as fingers (`fingering-moved`). */
const MELODIC: readonly string[] = ["chromatic interval", "interval and rhythm", "degree"];

/** Three notes in a row return in any line; four are heard as a group. [practice] */
const SHORTEST = 4;

/** A motif of which more than this lies in stepwise runs is a scale, not an idea. [practice] */
const MOSTLY_SCALE = 0.5;

/** Motifs that a listener can follow as melody: four notes or more, not scales, the most heard first. */
export function melodic(facts: Facts): AccountMotif[] {
  const running = new Set(facts.runs.flatMap(({ notes }) => ids(notes)));
  return facts.account.motifs
    .filter((motif) => MELODIC.includes(motif.viewpoint) && motif.length >= SHORTEST)
    .filter((motif) => {
      const notes = notesOf(facts, motif);
      return notes.filter((note) => running.has(note.id)).length <= MOSTLY_SCALE * notes.length;
    })
    .sort(
      (a, b) => b.length * b.occurrences.length - a.length * a.occurrences.length || (a.id < b.id ? -1 : 1),
    );
}

export function notesOf(facts: Facts, motif: AccountMotif): AccountNote[] {
  return motif.occurrences.flatMap((occurrence) => between(facts.solo, facts.place, occurrence));
}
