/** Where a chart falls in the time of a take: what the alignment hands to the rooms after it. */
import type { TimeMap } from "./position.ts";
import type { Warning } from "./problem.ts";

export const ALIGNMENT_METHODS = ["notated", "click", "tracked", "rubato", "anchored"] as const;

export type AlignmentMethod = (typeof ALIGNMENT_METHODS)[number];

/** A moment that the user has pinned to a place on the chart. */
export interface Anchor {
  readonly seconds: number;
  readonly chorus: number;
  readonly bar: number;
  /** In the meter's unit, 1 the first beat. */
  readonly beat: number;
}

/** One bar of one chorus in performed time. */
export interface BarTime {
  readonly chorus: number;
  readonly bar: number;
  /** Seconds. */
  readonly start: number;
  readonly end: number;
  /** 0 to 1: how likely it is that the bar is where it is said to be. */
  readonly confidence: number;
}

/** Another way to lay the take, worth a look where the one that was chosen is wrong. */
export interface AlignmentAlternative {
  /** Quarter notes a minute. */
  readonly tempo: number;
  readonly choruses: number;
  /** Bar of the form in which the take would begin. */
  readonly firstBar: number;
  /** 0 to 1: its share among the readings that were weighed. */
  readonly score: number;
  /** What it is beside the one that was chosen: "half as fast". */
  readonly why: string;
  /** Pins that lay the take so, where its tempo alone does not. */
  readonly pins?: readonly Anchor[];
}

/** A place at which the take leaves its form: bars, or half a bar, that were left out or put in. */
export interface IrregularBars {
  /** As the take was laid. */
  readonly chorus: number;
  readonly bar: number;
  readonly kind: "missing" | "extra";
  /** Quarter-note beats that are missing or too many. */
  readonly beats: number;
  /** Which part of the take lies beside the form because of it, as it was laid. */
  readonly side: "before" | "after";
}

/** Where the chart falls in performed time. */
export interface Alignment {
  readonly method: AlignmentMethod;
  readonly confidence: number;
  readonly choruses: number;
  /** Quarter-note beats of solo before the first bar line. */
  readonly pickupBeats: number;
  readonly tempo: { readonly median: number; readonly slowest: number; readonly fastest: number } | null;
  /**
   * Seconds to chart position. In rubato it still exists and joins chord boundaries, so that a note can be given its
   * chorus, bar and chord; positions inside a chord then mean nothing as beats.
   */
  readonly map: TimeMap;
  readonly bars: readonly BarTime[];
  readonly anchors: readonly Anchor[];
  readonly warnings: readonly Warning[];
  /** True where the beat is the click that the file states, and not drawn through the player's own notes. */
  readonly clicked?: boolean;
  /** Bars left out or put in, in the order of the take; left out where none is heard. */
  readonly irregular?: readonly IrregularBars[];
  /** Other readings, the likeliest first; none where nothing else was weighed. */
  readonly alternatives?: readonly AlignmentAlternative[];
}
