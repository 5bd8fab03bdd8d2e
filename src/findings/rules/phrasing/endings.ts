import type { AccountNote } from "../../../account.ts";
import type { MeasuredLine } from "../../measured-line.ts";

/** Last notes of the phrases, where they were heard surely. */
export function endingsOf(phrases: MeasuredLine["phrases"]): AccountNote[] {
  return phrases.flatMap(({ notes, unsureEnd }) => (unsureEnd ? [] : notes.slice(-1)));
}

/** First notes of the phrases, where they were heard surely. */
export function startsOf(phrases: MeasuredLine["phrases"]): AccountNote[] {
  return phrases.flatMap(({ notes, unsureStart }) => (unsureStart ? [] : notes.slice(0, 1)));
}

/** Share of the phrases whose last note is of a kind. */
export function endingShare(
  phrases: MeasuredLine["phrases"],
  is: (note: AccountNote) => boolean,
): number | null {
  const ends = endingsOf(phrases);
  return ends.length === 0 ? null : ends.filter(is).length / ends.length;
}
