/** A take of MIDI as if it had been heard, so that what is said of sound can be held against what is said of MIDI. */
import { type HeardNote, writeHeard } from "../../src/listen/heard.ts";
import type { Take } from "../../src/take/index.ts";

/** @param change what was heard otherwise */
export function heardLike(
  take: Take,
  change: (note: HeardNote, index: number) => HeardNote | null,
): Uint8Array {
  const notes = take.notes.flatMap((note, i) => {
    const heard = change(
      {
        pitch: note.pitch,
        onset: note.onset,
        end: note.onset + note.duration,
        velocity: note.velocity,
        certainty: 0.99,
        doubt: null,
      },
      i,
    );
    return heard === null ? [] : [heard];
  });
  return writeHeard({ heard: "piano", version: 1, seconds: 300, notes, pedal: [] });
}
