import type { AccountNote } from "../../../account.ts";

export const offBeats = (notes: readonly AccountNote[]) =>
  notes.filter((note) => note.beat !== null && Math.abs((note.beat % 1) - 0.5) < 0.01);

export const onBeats = (notes: readonly AccountNote[]) =>
  notes.filter((note) => note.beat !== null && Math.abs(note.beat % 1) < 0.01);
