import type { Degree } from "./types.ts";

const NAMES: Readonly<Record<Degree, string>> = {
  "1": "root",
  b9: "flat ninth",
  "9": "ninth",
  "#9": "sharp ninth",
  b3: "minor third",
  "3": "third",
  "11": "eleventh",
  "#11": "sharp eleventh",
  b5: "flat fifth",
  "5": "fifth",
  "#5": "raised fifth",
  b13: "flat thirteenth",
  "13": "thirteenth",
  "6": "sixth",
  b7: "seventh",
  "7": "major seventh",
};

/**
 * A degree as a teacher says it, without article.
 *
 * @example degreeName("b9") // "flat ninth"
 */
export function degreeName(degree: Degree): string {
  return NAMES[degree];
}
