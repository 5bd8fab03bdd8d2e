/**
 * How far a value stands from the middle of its fellows, by measures that the far ones cannot pull along.
 *
 * Modified z-score: 0.6745 (x - median) / MAD, where MAD is the median of the absolute deviations from the median;
 * values beyond 3.5 are looked at as outliers. Iglewicz & Hoaglin 1993, "How to Detect and Handle Outliers"; NIST/
 * SEMATECH e-Handbook of Statistical Methods, 1.3.5.17. Where more than half of the values are equal the MAD is 0 and
 * the mean of the absolute deviations stands in, over 1.2533 (the ratio of both scales for normal values).
 */
import { median } from "d3-array";

/** Beyond this score a value stands apart. */
export const STANDS_APART = 3.5;

/** Fewer values than this have no middle that could be trusted. */
const FEWEST = 5;

export interface Middle {
  readonly median: number;
  /** Median absolute deviation, unscaled. */
  readonly deviation: number;
  /** What a deviation from the median is divided by; 0 when all values are equal. */
  readonly scale: number;
}

/** Null for fewer than `FEWEST` values. */
export function middleOf(values: readonly number[]): Middle | null {
  if (values.length < FEWEST) return null;
  const middle = median(values)!;
  const deviations = values.map((value) => Math.abs(value - middle));
  const deviation = median(deviations)!;
  const mean = deviations.reduce((sum, one) => sum + one, 0) / deviations.length;
  return { median: middle, deviation, scale: deviation > 0 ? deviation / 0.6745 : mean * 1.2533 };
}

/** The score of a value; 0 when all values are equal. */
export function robustScore(value: number, middle: Middle): number {
  return middle.scale === 0 ? 0 : (value - middle.median) / middle.scale;
}
