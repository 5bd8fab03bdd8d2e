import type { Meter } from "../chart/types.ts";
import type { Anchor } from "../take/index.ts";
import type { LineTables } from "./lattice/line-model.ts";

export type { Alignment, AlignmentMethod, Anchor, BarTime, NoteHand } from "../take/index.ts";

/** What the user may decide about the alignment. */
export interface AlignOptions {
  /** "auto" lets the program choose and say what it chose. */
  readonly method: "auto" | "notated" | "click" | "tracked" | "rubato";
  /** Known tempo in quarter notes a minute, or null. */
  readonly tempo: number | null;
  readonly anchors: readonly Anchor[];
  /** Tables of lines, where a report lays a take by those of others. */
  readonly lines?: LineTables | undefined;
}

/** What pins need to know of a chart: its meter, and how many bars a chorus has. */
export interface FormSize {
  readonly meter: Meter;
  readonly bars: { readonly length: number };
}
