/**
 * The local boundary detection model: a boundary is where intervals change, and the more so the larger they are.
 * Cambouropoulos 2001, "The local boundary detection model (LBDM) and its application in the study of expressive
 * timing", ICMC.
 */

/** A line as the model needs it; all three of the same length, in time order. Any one unit of time. */
export interface TimedLine {
  /** MIDI numbers. */
  readonly pitches: readonly number[];
  readonly onsets: readonly number[];
  readonly offsets: readonly number[];
}

/** Weights of the three profiles in the model. */
const WEIGHTS = { pitch: 0.25, onset: 0.5, rest: 0.25 };

/**
 * Boundary strength at each of the n - 1 gaps between n notes, 0 to 1, the strongest 1 (all 0 when nothing changes).
 *
 * @example lbdm({ pitches: [60, 62, 64, 65, 72, 71, 69, 67], ... }) // [0, .0159, .0883, 1, .0883, .0159, 0]
 */
export function lbdm(line: TimedLine): number[] {
  const gaps = Math.max(0, line.pitches.length - 1);
  const pitch: number[] = [];
  const onset: number[] = [];
  const rest: number[] = [];
  for (let i = 0; i < gaps; i++) {
    pitch.push(Math.abs(line.pitches[i + 1]! - line.pitches[i]!));
    onset.push(Math.max(0, line.onsets[i + 1]! - line.onsets[i]!));
    rest.push(Math.max(0, line.onsets[i + 1]! - line.offsets[i]!));
  }
  const [p, o, r] = [strengths(pitch), strengths(onset), strengths(rest)];
  return normalised(p.map((s, i) => WEIGHTS.pitch * s + WEIGHTS.onset * o[i]! + WEIGHTS.rest * r[i]!));
}

/** Each interval times its degrees of change against the one before and the one after, normalised. */
function strengths(intervals: readonly number[]): number[] {
  return normalised(intervals.map((x, i) => x * (change(intervals[i - 1], x) + change(x, intervals[i + 1]))));
}

function change(a: number | undefined, b: number | undefined): number {
  if (a === undefined || b === undefined || a + b === 0) return 0;
  return Math.abs(a - b) / (a + b);
}

function normalised(values: number[]): number[] {
  const most = values.reduce((m, v) => Math.max(m, v), 0);
  return most > 0 ? values.map((v) => v / most) : values;
}
