/**
 * What handbooks of fingering teach and no published rule says, in points. The hand lies over five neighbouring keys,
 * a finger to each, and leaves that place only for a reason; a key that is struck again may be given to the next
 * finger towards the thumb; fingers are not alike. [lit: C. P. E. Bach, "Versuch", 1753, ch. 1 (one finger to a key,
 * changes on repeated keys); Hanon, "The Virtuoso Pianist", nos. 1 to 20 (five neighbouring keys) and 44 (3 2 1 on a
 * repeated key)] [memory]
 */
import type { Finger } from "../take/index.ts";
import { reach } from "./finger-spans.ts";

export interface TaughtPoints {
  /** By finger, wherever it plays alone. */
  readonly fingers: Readonly<Record<Finger, number>>;
  /** A key struck again: by the same finger, by one nearer to the thumb, by one farther from it. */
  readonly again: { readonly same: number; readonly towards: number; readonly away: number };
  /** The fingers are opened wider than one to a step, and closed nearer; each step, with the thumb and without it. */
  readonly opened: { readonly thumb: number; readonly others: number };
  readonly closed: { readonly thumb: number; readonly others: number };
}

/** No pair of fingers is opened by more steps than this; what is wider is a move of the hand. */
const MOST_OPENED = 4;

/** Points for finger b on key `to` after finger a on key `from`, as the right hand sees them; 0 where fingers cross. */
export function taughtPair(points: TaughtPoints, from: number, a: Finger, to: number, b: Finger): number {
  const { again, opened, closed } = points;
  if (from === to) return a === b ? again.same : b < a ? again.towards : again.away;
  const semitones = reach(a, from, b, to);
  if (a === b || semitones < 0) return 0;
  const spare = stepsIn(semitones) - Math.abs(a - b);
  const which = a === 1 || b === 1 ? "thumb" : "others";
  return spare >= 0 ? opened[which] * Math.min(MOST_OPENED, spare) : -closed[which] * spare;
}

/** Steps of a scale in so many semitones: seven to the octave, to the nearest. */
function stepsIn(semitones: number): number {
  return Math.round((semitones * 7) / 12);
}
