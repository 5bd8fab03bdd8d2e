import type { Degree } from "./types.ts";

const SEMITONES: Readonly<Record<Degree, number>> = {
  "1": 0,
  b9: 1,
  "9": 2,
  "#9": 3,
  b3: 3,
  "3": 4,
  "11": 5,
  "#11": 6,
  b5: 6,
  "5": 7,
  "#5": 8,
  b13: 8,
  "13": 9,
  "6": 9,
  b7: 10,
  "7": 11,
};

/**
 * Semitones of a degree above the root, 0 to 11.
 *
 * @example degreeSemitones("b3") // 3
 */
export function degreeSemitones(degree: Degree): number {
  return SEMITONES[degree];
}
