import type { AccountNote } from "../../../account.ts";

/** Places are snapped to a grid; what is left is rounding. */
const NEAR = 0.01;
const HALF = 0.5;

export const offBeats = (notes: readonly AccountNote[]) =>
  notes.filter((note) => note.beat !== null && Math.abs((note.beat % 1) - HALF) < NEAR);

export const onBeats = (notes: readonly AccountNote[]) =>
  notes.filter((note) => note.beat !== null && Math.abs(note.beat % 1) < NEAR);
