import type { Hand, Note } from "./note.ts";

/** The hand that plays a note, whether it belongs to the improvised line, and how clear that is (0 to 1). */
export interface NoteHand {
  readonly hand: Hand;
  readonly solo: boolean;
  readonly margin: number;
}

/** A note that has been given a hand and a place on the chart. */
export interface PlacedNote extends Note {
  readonly hand: Hand;
  /** True when it belongs to the improvised line; false for comping and bass. */
  readonly solo: boolean;
  /** True for the tune of a head that was set apart: neither line nor comping. */
  readonly head?: true;
  /** From 1; a pickup belongs to the chorus that it leads into. */
  readonly chorus: number;
  /** Bar of the chart, from 1; 0, -1, ... in a pickup. Bars after the last chorus (an ending tag) count on. */
  readonly bar: number;
  /**
   * Beat of the bar in the meter's unit, 1 the first, as heard: snapped to the grid that the note was played on, so
   * that a swung off-beat is x.5. Null in rubato.
   */
  readonly beat: number | null;
  /** Chart position of the snapped onset, in quarter-note beats from the first chorus's first bar line. Null in rubato. */
  readonly position: number | null;
  /** Duration in quarter-note beats, as performed (not snapped). Null in rubato. */
  readonly beats: number | null;
  /** Performed minus snapped onset, in quarter-note beats: early -, late +. Null in rubato and in notation. */
  readonly timing: number | null;
  /** Index into `chordSpans(chart)` of the chord that sounds at the onset. */
  readonly span: number;
}
