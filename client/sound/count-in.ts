/** A bar of clicks before a passage, so that whoever plays along comes in with it. */
import type { AccountIndex } from "../shell/account-index.ts";
import type { Clock } from "./clock.ts";

/** A passage that begins at most this part of a beat after a beat begins on it. */
const LATE = 0.1;

/**
 * Clicks of one bar that lead into a moment of the playing, in its beats: a phrase that begins on the off-beat of two is
 * counted to two. None without a beat.
 *
 * @param from second of the take at which the passage begins: its bar gives the beat
 * @param origin second of the playing at which the passage begins
 * @returns seconds before the origin, greatest first, and whether the click is a bar's first
 */
export function countIn(
  index: AccountIndex,
  clock: Clock,
  from: number,
  origin: number,
): readonly { readonly before: number; readonly first: boolean }[] {
  const { bars, method } = index.analysis.alignment;
  const bar = bars.findLast(({ start }) => start <= from + LATE) ?? bars[0];
  if (method === "rubato" || bar === undefined) return [];
  const { beats } = index.analysis.chart.meter;
  const line = clock.at(bar.start);
  const beat = (clock.at(bar.end - 1e-9) - line) / beats;
  const into = (origin - line) / beat;
  const next = Math.ceil(into - LATE);
  return Array.from({ length: beats }, (_, i) => next - beats + i).map((count) => ({
    before: (into - count) * beat,
    first: count % beats === 0,
  }));
}
