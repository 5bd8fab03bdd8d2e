/** Notes with their hands, as passages of doubtful hands are told from them. */
import type { PartedNote } from "../../src/parting/doubtful.ts";
import type { Note } from "../../src/take/index.ts";

/** @param right 1 for notes of the right hand; parallel to the notes, as are the margins */
export const partedRows = (
  notes: readonly Note[],
  right: ArrayLike<number>,
  margin: ArrayLike<number>,
): PartedNote[] =>
  notes.map(({ onset, pitch }, i) => ({
    onset,
    pitch,
    hand: right[i] === 1 ? "right" : "left",
    margin: margin[i]!,
  }));
