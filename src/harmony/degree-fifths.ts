import type { Degree } from "../chart/types.ts";

/** Steps on the line of fifths from a root to its degrees. */
export const DEGREE_FIFTHS: Readonly<Record<Degree, number>> = {
  "1": 0,
  b9: -5,
  "9": 2,
  "#9": 9,
  b3: -3,
  "3": 4,
  "11": -1,
  "#11": 6,
  b5: -6,
  "5": 1,
  "#5": 8,
  b13: -4,
  "13": 3,
  "6": 3,
  b7: -2,
  "7": 5,
};
