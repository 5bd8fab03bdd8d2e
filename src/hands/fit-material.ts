import type { Chart, ChordSpan } from "../chart/index.ts";
import type { PlacedNote } from "../take/index.ts";
import type { HandSize } from "./comfort.ts";
import type { HandLine } from "./hand-line.ts";
import type { HandShape } from "./shape.ts";

/** What the summary of the hand is made from. */
export interface FitMaterial {
  readonly notes: readonly PlacedNote[];
  readonly lines: readonly HandLine[];
  /** Placement ids, one row a line, parallel to its runs. */
  readonly ids: readonly (readonly string[])[];
  readonly spans: readonly ChordSpan[];
  readonly chart: Chart;
  readonly shapes: readonly HandShape[];
  readonly size: HandSize;
  /** Whether anybody will read what else the hand might have done. */
  readonly alternatives: boolean;
}
