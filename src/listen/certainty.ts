/** How likely a note is that the network heard, from the height of its peak and from what is doubted of it. */
import type { Doubt } from "./heard.ts";

/** Shares of notes that were really played, by the height of the onset's peak; straight lines in between. */
type Table = readonly (readonly [peak: number, share: number])[];

/**
 * Counted on three pianos that the network was not trained on, heard direct and through simulated rooms and phones: a
 * hundred thousand peaks, half the weight on what people played and half on the demo takes, pooled so that the share
 * never falls (`corpus/listening/calibration.json`). Real rooms are not among them, so the upper end stands a little
 * lower than was counted.
 */
const PLAIN: Table = [
  [0, 0],
  [0.1, 0.088],
  [0.14, 0.135],
  [0.18, 0.2],
  [0.27, 0.24],
  [0.33, 0.35],
  [0.37, 0.405],
  [0.42, 0.475],
  [0.48, 0.585],
  [0.53, 0.695],
  [0.58, 0.785],
  [0.63, 0.845],
  [0.68, 0.905],
  [0.73, 0.955],
  [0.78, 0.975],
  [0.83, 0.987],
  [0.92, 0.992],
  [1, 0.995],
];

/** What is likely a trap is trusted less. Too few were met to count them: these are cautious guesses. */
const TRAP: Table = [
  [0, 0],
  [0.33, 0.12],
  [0.56, 0.45],
  [0.65, 0.6],
  [0.76, 0.8],
  [0.83, 0.93],
  [1, 0.98],
];

const TABLES: Readonly<Record<Doubt | "none", Table>> = {
  none: PLAIN,
  "octave ghost": TRAP,
  "re-strike": TRAP,
};

/** @param peak the onset's probability as the network gives it, 0 to 1 */
export function certaintyOf(peak: number, doubt: Doubt | null): number {
  const table = TABLES[doubt ?? "none"];
  const above = table.findIndex(([p]) => p >= peak);
  const after = Math.max(1, above < 0 ? table.length - 1 : above);
  const [p0, s0] = table[after - 1]!;
  const [p1, s1] = table[after]!;
  return s0 + Math.min(1, Math.max(0, (peak - p0) / (p1 - p0))) * (s1 - s0);
}
