import { codesOf, type ViewedNote } from "./viewpoints.ts";

/**
 * A take's line as a search reads it: four columns of one byte a note (pitch, degree, finger, and the rhythm of the
 * step that follows), one column after the other. All viewpoints are read from these, so that a corpus of millions of
 * notes is held in four times as many bytes.
 *
 * @param line notes in time order, one at a time
 */
export function packLine(line: readonly ViewedNote[]): Uint8Array {
  const n = line.length;
  const bytes = new Uint8Array(COLUMNS * n);
  line.forEach((note, i) => {
    bytes[i] = note.pitch;
  });
  bytes.set(codesOf(line, "degree"), n);
  bytes.set(codesOf(line, "finger"), 2 * n);
  bytes.set(codesOf(line, "rhythm"), 3 * n);
  return bytes;
}

const COLUMNS = 4;

/** Number of notes of a packed line. */
export function notesOfPacked(packed: Uint8Array): number {
  return packed.length / COLUMNS;
}

/** One of its columns: 0 pitch, 1 degree, 2 finger, 3 rhythm. */
export function columnOfPacked(packed: Uint8Array, column: 0 | 1 | 2 | 3): Uint8Array {
  const n = notesOfPacked(packed);
  return packed.subarray(column * n, (column + 1) * n);
}
