/** What a lattice is given, and what it finds. */

/** The moments and lengths that are tried. */
export interface LatticeGrid {
  /** Seconds of each column, rising. */
  readonly times: Float64Array;
  /** Lengths of a beat in columns. */
  readonly lengths: readonly number[];
  /** Log share of a length after another: `drift[before * lengths + after]`. */
  readonly drift: Float64Array;
  /** Columns by which a beat's strokes may come before it, as seconds before each column. */
  readonly early: Float64Array;
  /** Last column in which the first beat may begin. */
  readonly firstUntil: number;
}

export interface LatticeStart {
  /** Log shares of the states in the first step, and of those reached after the last. */
  readonly begin: Float64Array;
  readonly end: Float64Array;
  /** Log share of readings whose state `p` begins at a column, for the first beat; null where nothing is known. */
  readonly known: ((column: number, p: number) => number) | null;
  readonly pins: readonly LatticePin[];
  /** Share of gaps between strokes in which the beat stops and goes on anew. */
  readonly pauses: number;
}

/** A moment whose place is known: `beat` in beats from the first of the first chorus, with a share of one. */
export interface LatticePin {
  readonly seconds: number;
  readonly beat: number;
}

export interface Laid {
  /** Log evidence of the take under this grid. */
  readonly evidence: number;
  /** Seconds at which each beat begins, one more than beats; number of the first from the form's, before it in a lead. */
  readonly beats: Float64Array;
  readonly firstBeat: number;
  /** Share of all readings that have the stroke in the beat of the form which the path gives it. */
  readonly sure: Float64Array;
}
