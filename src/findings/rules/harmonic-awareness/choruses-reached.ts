import type { AccountNote } from "../../../account.ts";

export const choruses = (notes: readonly AccountNote[]) => Math.max(1, ...notes.map((note) => note.chorus));
