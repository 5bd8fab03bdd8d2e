import type { Degree, Quality } from "../chart/index.ts";
import type { Finger } from "../take/index.ts";

/** Where a shape may stand: the degree under its anchor finger, on chords of these qualities (all when empty). */
export interface AnchorDegree {
  readonly degree: Degree;
  readonly qualities: readonly Quality[];
}

/** Fingers and the semitones between them. Data: a teacher adds others. Right hand; mirrored for the left. */
export interface HandShape {
  /** "third-and-steps"; unique. */
  readonly name: string;
  /** Rising, without doublings. */
  readonly fingers: readonly Finger[];
  /** Semitones above the lowest finger, one for each finger, rising from 0. */
  readonly semitones: readonly number[];
  readonly anchorFinger: Finger;
  readonly anchorDegrees: readonly AnchorDegree[];
}
