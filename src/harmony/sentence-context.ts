import type { ChordSpan, Meter } from "../chart/types.ts";
import type { Finger, PlacedNote } from "../take/index.ts";
import type { NoteLabel } from "./labels.ts";

/** What the sentence for a note is made from, beside the note and its label. */
export interface SentenceContext {
  /** The note that the label's `target` names, and its label. */
  readonly target: PlacedNote | null;
  readonly targetLabel: NoteLabel | null;
  /** The chord at the note's onset, and the one after it in the form. */
  readonly span: ChordSpan;
  readonly nextSpan: ChordSpan;
  readonly meter: Meter;
  /** The finger that plays the note, where it is known. */
  readonly finger: Finger | null;
  /** True when the finger slides on from this note to the next. */
  readonly slide: boolean;
}
