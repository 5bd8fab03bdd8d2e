import type { AccountNote } from "../../../account.ts";
import type { MeasuredLine } from "../../measured-line.ts";

/** Last notes of the phrases. */
export function endingsOf(phrases: MeasuredLine["phrases"]): AccountNote[] {
  return phrases.map(({ notes }) => notes[notes.length - 1]).filter((note) => note !== undefined);
}

/** Share of the phrases whose last note is of a kind. */
export function endingShare(
  phrases: MeasuredLine["phrases"],
  is: (note: AccountNote) => boolean,
): number | null {
  const ends = endingsOf(phrases);
  return ends.length === 0 ? null : ends.filter(is).length / ends.length;
}
