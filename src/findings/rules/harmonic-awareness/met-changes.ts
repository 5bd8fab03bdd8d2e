import type { ChordEntry, MeasuredLine } from "../../measured-line.ts";

/** Quarter-note beats after a change within which a note is heard as meeting it. [practice] */
const WITHIN = 1;

/** Chord changes that a note meets. */
export function metChanges(entries: readonly ChordEntry[]): ChordEntry[] {
  return entries.filter((entry) => entry.after < WITHIN);
}

/** Share of the changes met that are met with a third or a seventh. */
export function guideToneShare({ entries }: Pick<MeasuredLine, "entries">): number | null {
  const met = metChanges(entries);
  return met.length === 0 ? null : met.filter(({ note }) => note.guideTone).length / met.length;
}
