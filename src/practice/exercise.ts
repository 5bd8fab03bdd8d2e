import type { Degree, Meter } from "../chart/index.ts";
import type { Finger } from "../take/index.ts";
import type { PracticeKind } from "./kinds.ts";

/** Where the hand stands for a note of an exercise. */
export interface ExercisePlacement {
  readonly shape: string;
  readonly anchorFinger: Finger;
  /** MIDI number under the anchor finger. */
  readonly anchorPitch: number;
  readonly anchorDegree: Degree;
}

export interface ExerciseNote {
  /** Quarter-note beats from the bar line. */
  readonly at: number;
  /** Length in quarter-note beats; 0 for the black key of a slide. */
  readonly beats: number;
  readonly pitch: number;
  /** "Eb4". */
  readonly spelling: string;
  readonly finger: Finger | null;
  /** Null where the note stands outside any shape (an approach from a half step below). */
  readonly placement: ExercisePlacement | null;
  /** True for a key that a finger slides from, and for the key that it slides to. */
  readonly slide: "from" | "to" | null;
}

export interface ExerciseBar {
  readonly chords: readonly { readonly at: number; readonly symbol: string }[];
  /** Empty in a bar that is left to the student. */
  readonly notes: readonly ExerciseNote[];
  /** Words above the bar, or null: "index on the fifth", "your answer". */
  readonly words: string | null;
  readonly newLine: boolean;
}

/** One step of the way from slow to the tempo of the take. */
export interface TempoStep {
  /** Quarter notes a minute; null in free time. */
  readonly quartersPerMinute: number | null;
  readonly click: "none" | "every beat" | "two and four";
  /** Clean rounds before the next step. */
  readonly rounds: number;
}

/** Something to play, in notation, that follows from a finding. */
export interface Exercise {
  /** "1", "2", ...: its place on the sheet; a number is left out where a key has no keys for an exercise. */
  readonly id: string;
  /** `Finding.id`, "lens" for what follows from the lens, or null when it is there for every student. */
  readonly finding: string | null;
  readonly kind: PracticeKind;
  readonly title: string;
  readonly text: string;
  /** "F", "Gm". */
  readonly key: string;
  readonly fifths: number;
  readonly mode: "major" | "minor";
  readonly meter: Meter;
  readonly swing: boolean;
  /** First over second part of a swung pair, the take's own; null where eighths are even. */
  readonly swingRatio: number | null;
  readonly bars: readonly ExerciseBar[];
  readonly tempoPlan: readonly TempoStep[];
  /** The usual care of the hand where a shape is wide, else null. */
  readonly caution: string | null;
}
