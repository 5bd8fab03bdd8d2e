import { ascending, quantileSorted, sort } from "d3-array";
import type { RegisterSummary } from "../account.ts";

/** The quantiles that a register is summed up by. */
const REGISTER_SHARES = [0.1, 0.25, 0.5, 0.75, 0.9] as const;

/**
 * Where on the keyboard a set of notes lies: lowest, highest, quantiles (type 7) and a count for every key that was
 * struck, rising. All in MIDI numbers. No notes give nulls and empty lists.
 */
export function registerOf(pitches: readonly number[]): RegisterSummary {
  if (pitches.length === 0) return { low: null, high: null, quantiles: [], histogram: [] };
  const sorted = sort(pitches, ascending);
  const counts = new Map<number, number>();
  for (const pitch of sorted) counts.set(pitch, (counts.get(pitch) ?? 0) + 1);
  return {
    low: sorted[0]!,
    high: sorted[sorted.length - 1]!,
    quantiles: REGISTER_SHARES.map((share) => quantileSorted(sorted, share)!),
    histogram: [...counts].map(([pitch, notes]) => ({ pitch, notes })),
  };
}
