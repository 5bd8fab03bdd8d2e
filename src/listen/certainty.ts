/** How likely a note is that the network heard, from the height of its peak and from what is doubted of it. */
import type { Doubt } from "./heard.ts";

/** Shares of notes that were really played, by the height of the onset's peak; straight lines in between. */
type Table = readonly (readonly [peak: number, share: number])[];

const PLAIN: Table = [
  [0, 0],
  [1, 1],
];

const TABLES: Readonly<Record<Doubt | "none", Table>> = {
  none: PLAIN,
  "octave ghost": PLAIN,
  "re-strike": PLAIN,
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
