import type { Analysis } from "../../src/account.ts";
import { parseChord, type Quality } from "../../src/chart/index.ts";

/** Number of solo notes of one analysis on one kind of chord in one pair of roles. */
export interface Tally {
  /** Quality of the chord, or "N.C.". */
  readonly chord: Quality | "N.C.";
  readonly role: string;
  readonly lineRole: string;
  readonly notes: number;
}

/** Counts the solo notes of an account by kind of chord, harmonic role and line role. */
export function tallyOf(analysis: Analysis): Tally[] {
  const qualities = new Map<string | null, Tally["chord"]>([[null, "N.C."]]);
  const counts = new Map<string, Tally & { notes: number }>();
  for (const note of analysis.notes) {
    if (!note.solo || note.role === null || note.lineRole === null) continue;
    let chord = qualities.get(note.chord);
    if (chord === undefined) {
      chord = (note.chord === null ? null : parseChord(note.chord))?.quality ?? "N.C.";
      qualities.set(note.chord, chord);
    }
    const key = `${chord}/${note.role}/${note.lineRole}`;
    const tally = counts.get(key);
    if (tally === undefined) counts.set(key, { chord, role: note.role, lineRole: note.lineRole, notes: 1 });
    else tally.notes++;
  }
  return [...counts.values()];
}
