/** How likely a note is that the network heard, from the height of its peak and from what is doubted of it. */
import type { Doubt } from "./heard.ts";

/** Shares of notes that were really played, by the height of the onset's peak; straight lines in between. */
type Table = readonly (readonly [peak: number, share: number])[];

/**
 * Counted on performances that the network was not trained on, played by a sampled piano, direct and through a phone: of
 * peaks from .25 to .5 about seven in ten were notes (44 of them), from .5 on 997 in 1000 (1158). The upper end stands
 * lower than that, since real rooms and pianos are not among them.
 */
const PLAIN: Table = [
  [0, 0],
  [0.1, 0.3],
  [0.25, 0.55],
  [0.4, 0.8],
  [0.5, 0.93],
  [0.7, 0.98],
  [1, 0.995],
];

/** What is likely a trap is trusted less. Too few were met to count them: these are cautious guesses. */
const TRAP: Table = [
  [0, 0],
  [0.25, 0.35],
  [0.5, 0.75],
  [0.7, 0.93],
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
