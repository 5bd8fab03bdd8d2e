import type { Finger } from "../take/index.ts";

/**
 * How far two fingers reach, in semitones from the lower-numbered finger's key up to the other's, right hand;
 * negative where the thumb passes under. `prac`: can be played at all; `comf`: comfortable; `rel`: relaxed.
 */
export interface FingerSpan {
  readonly minPrac: number;
  readonly minComf: number;
  readonly minRel: number;
  readonly maxRel: number;
  readonly maxComf: number;
  readonly maxPrac: number;
}

/** Pair of fingers, lower number first; then the columns of `FingerSpan` in order. Parncutt et al. 1997, table 1. */
export const FINGER_SPANS: readonly (readonly [
  Finger,
  Finger,
  number,
  number,
  number,
  number,
  number,
  number,
])[] = [
  [1, 2, -5, -3, 1, 5, 8, 10],
  [1, 3, -4, -2, 3, 7, 10, 12],
  [1, 4, -3, -1, 5, 9, 12, 14],
  [1, 5, -1, 1, 7, 10, 13, 15],
  [2, 3, 1, 1, 1, 2, 3, 5],
  [2, 4, 1, 1, 3, 4, 5, 7],
  [2, 5, 2, 2, 5, 6, 8, 10],
  [3, 4, 1, 1, 1, 2, 2, 4],
  [3, 5, 1, 1, 3, 4, 5, 7],
  [4, 5, 1, 1, 1, 2, 3, 5],
];

/** A finger stays on its own key: any other key is a change of position. */
const SAME_FINGER: FingerSpan = { minPrac: 0, minComf: 0, minRel: 0, maxRel: 0, maxComf: 0, maxPrac: 0 };

const TABLE: readonly FingerSpan[] = buildTable();

/** The span of two fingers in either order. */
export function fingerSpan(a: Finger, b: Finger): FingerSpan {
  return TABLE[a * 6 + b]!;
}

/**
 * Semitones from the lower-numbered finger's key up to the other's, when `a` plays `from` and `b` plays `to`
 * (right hand, MIDI numbers). For one finger on two keys, the distance between them.
 */
export function reach(a: Finger, from: number, b: Finger, to: number): number {
  return a < b ? to - from : from - to;
}

/** True where the pair can be played at all. */
export function isPracticable(a: Finger, from: number, b: Finger, to: number): boolean {
  const semitones = reach(a, from, b, to);
  const span = fingerSpan(a, b);
  return semitones >= span.minPrac && semitones <= span.maxPrac;
}

function buildTable(): FingerSpan[] {
  const table = Array.from({ length: 36 }, () => SAME_FINGER);
  for (const [a, b, minPrac, minComf, minRel, maxRel, maxComf, maxPrac] of FINGER_SPANS) {
    const span = { minPrac, minComf, minRel, maxRel, maxComf, maxPrac };
    table[a * 6 + b] = span;
    table[b * 6 + a] = span;
  }
  return table;
}
