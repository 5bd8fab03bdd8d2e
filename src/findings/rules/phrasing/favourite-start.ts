import type { AccountNote } from "../../../account.ts";

/** Place in the bar at which a note starts, in the meter's beats, or null. */
const startBeat = (note: AccountNote | undefined) => note?.beat ?? null;

export function favouriteStart(starts: readonly (AccountNote | undefined)[]): {
  share: number;
  count: number;
  beat: number | null;
  notes: AccountNote[];
} {
  const byBeat = new Map<number, AccountNote[]>();
  let count = 0;
  for (const note of starts) {
    const beat = startBeat(note);
    if (note === undefined || beat === null) continue;
    const rounded = Math.round(beat * 2) / 2;
    const there = byBeat.get(rounded);
    if (there === undefined) byBeat.set(rounded, [note]);
    else there.push(note);
    count++;
  }
  const [beat, notes] = [...byBeat].sort((a, b) => b[1].length - a[1].length)[0] ?? [null, []];
  return { share: count === 0 ? 0 : notes.length / count, count, beat, notes };
}
