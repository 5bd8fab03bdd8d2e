/**
 * Rhythms of a phrase: beats from the phrase's bar line at which notes start, and how long the last one is held.
 * Written as they would be sung; off-beats are swung in performance. A triplet always fills its beat.
 */
export interface Cell {
  readonly onsets: readonly number[];
  /** Beats that the last note is held. */
  readonly hold: number;
}

const T = 1 / 3;

/** Short enough to leave half of two bars free. */
export const SHORT_CELLS: readonly Cell[] = [
  { onsets: [0, 0.5, 1, 1.5, 2.5], hold: 1 },
  { onsets: [0.5, 1, 1.5, 2, 2.5, 3.5], hold: 1 },
  { onsets: [1, 1.5, 2, 3, 3.5], hold: 1.5 },
  { onsets: [1, 1 + T, 1 + 2 * T, 2, 3, 3.5], hold: 1 },
  { onsets: [0.5, 1.5, 2.5, 3, 3.5], hold: 1 },
  { onsets: [0, 0.5, 1, 2, 3], hold: 1 },
  { onsets: [1.5, 2, 2.5, 3, 4], hold: 1 },
  { onsets: [0, 1, 1.5, 2.5, 3], hold: 1.5 },
];

export const MIDDLE_CELLS: readonly Cell[] = [
  { onsets: [0, 0.5, 1, 1.5, 2, 2.5, 3.5, 4], hold: 1 },
  { onsets: [1.5, 2, 2.5, 3, 3.5, 4, 5], hold: 1 },
  { onsets: [0, 1.5, 2, 2.5, 3, 3.5, 4.5], hold: 1 },
  { onsets: [0.5, 1, 1.5, 2, 3, 3.5, 4, 4.5, 5.5], hold: 0.5 },
  { onsets: [0, T, 2 * T, 1, 1.5, 2.5, 3, 3.5, 4], hold: 1.5 },
  { onsets: [1, 1.5, 2, 2.5, 3, 3 + T, 3 + 2 * T, 4, 5], hold: 1 },
  { onsets: [0, 0.5, 1, 2, 2.5, 3, 4, 4.5], hold: 1.5 },
];

export const LONG_CELLS: readonly Cell[] = [
  { onsets: [0.5, 1, 1.5, 2, 2.5, 3, 3.5, 4, 4.5, 5, 5.5], hold: 1 },
  { onsets: [0, 0.5, 1, 1.5, 2, 2 + T, 2 + 2 * T, 3, 3.5, 4, 4.5, 5.5], hold: 0.5 },
  { onsets: [1, 1.5, 2, 2.5, 3, 3.5, 4, 4.5, 5, 5.5, 6], hold: 1 },
  { onsets: [0, 0.5, 1.5, 2, 2.5, 3, 3.5, 4, 4 + T, 4 + 2 * T, 5], hold: 1.5 },
];

/** Eighths without end, as a beginner plays them: `notes` of them from the bar line. */
export function streamCell(notes: number): Cell {
  return { onsets: Array.from({ length: notes }, (_, i) => i / 2), hold: 0.5 };
}
