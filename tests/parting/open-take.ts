/** Takes written down for the tests of the parting: what is not said of a note is as plain as it can be. */
import type { Note, Part, Take } from "../../src/take/index.ts";
import { emptyTake } from "../take/empty-take.ts";

export function takeOf(parts: readonly Part[], notes: readonly Partial<Note>[]): Take {
  return emptyTake({
    notes: notes.map((note, i) => ({
      id: `n${i + 1}`,
      pitch: 60,
      onset: i * 0.25,
      duration: 0.2,
      sounding: 0.2,
      velocity: 80,
      tick: i * 240,
      ticks: 200,
      part: parts[0]!.id,
      printed: null,
      ...note,
    })),
    parts,
  });
}

/** The same of one part without a name. */
export function openTake(notes: readonly Partial<Note>[]): Take {
  return takeOf([{ id: "t1", name: "", staves: 1, program: 0, notes: notes.length }], notes);
}
