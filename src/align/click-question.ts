/** The question whether a click was heard, where a take was not laid by its file's beats and may have been played to them. */
import type { Take, Warning } from "../take/index.ts";

/**
 * How likely a click must be to be asked about: below it nine in ten say that there was none. Of 74 of people's solos on
 * clicks of their own, laid by tables of others, four and three are not laid by them, and all of these are asked about; of
 * the same solos under idle tempos that somebody chose 7 are asked about, 66 are not, and one is laid by it.
 */
const ASKED_FROM = 0.1;

/**
 * @param share how likely the take was played to the beats of its file, 0 to 1
 * @returns the question, or nothing where a click is hardly likely
 */
export function clickQuestion({ tempos }: Take, share: number): Warning[] {
  const [mark] = tempos;
  if (mark === undefined || share < ASKED_FROM) return [];
  const tempo = Math.round(mark.quartersPerMinute);
  return [
    {
      code: "click-cannot-be-told",
      message:
        `The file goes at ${tempo} quarter notes a minute; whether it was played to a click at this tempo cannot be told` +
        " from the notes, and their own beat was followed. If a click was heard, say so (method: click)",
      where: null,
    },
  ];
}
