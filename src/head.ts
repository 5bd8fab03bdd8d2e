import { type PlacedNote, Problem } from "./take/index.ts";

/**
 * Sets a head apart: the tune that is played before the solo. Its notes keep their place and their chord, but are no
 * part of the line, so that nothing that is said of the solo (shares, ideas, devices, findings) counts them, nor of
 * the comping.
 *
 * @param head choruses that the head takes, from the first on; 0 for none
 * @param choruses choruses of the take
 * @throws Problem "no-solo-left" when the head takes them all
 */
export function headApart(placed: readonly PlacedNote[], head: number, choruses: number): PlacedNote[] {
  if (head >= choruses && head > 0) {
    throw new Problem(
      "no-solo-left",
      `A head of ${head} choruses leaves nothing of a take of ${choruses}`,
      "options.headChoruses",
      "Give the number of choruses that the tune takes before the solo.",
    );
  }
  return placed.map((note) =>
    note.solo && note.chorus <= head ? { ...note, solo: false, head: true as const } : note,
  );
}
