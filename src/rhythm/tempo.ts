import { median } from "d3-array";
import type { RhythmSummary } from "../account.ts";
import type { Alignment } from "../take/index.ts";
import { rounded, slope } from "./spread.ts";
import { HEARD } from "./timing.ts";

/** Fewer bars than this say nothing of a tempo's steadiness. [practice] */
const FEWEST_BARS = 4;

/**
 * How steady the player's own tempo is: standard deviation of the tempos of the bars over their mean, and the change
 * of tempo in percent a minute. A change that adds up to less than 2.5 % over the take is not heard (Friberg &
 * Sundberg 1995) and is given as 0.
 *
 * @returns null where the player does not make the tempo (click, notation) or there is none (rubato)
 */
export function tempoStability(alignment: Alignment, barBeats: number): RhythmSummary["tempoStability"] {
  if (alignment.method !== "tracked" && alignment.method !== "anchored") return null;
  const bars = alignment.bars
    .filter((bar) => bar.end > bar.start)
    .map((bar) => ({ x: (bar.start + bar.end) / 120, y: (60 * barBeats) / (bar.end - bar.start) }));
  if (alignment.tempo === null || bars.length < FEWEST_BARS) return null;
  const mean = bars.reduce((s, bar) => s + bar.y, 0) / bars.length;
  const variance = bars.reduce((s, bar) => s + (bar.y - mean) ** 2, 0) / (bars.length - 1);
  const minutes = bars[bars.length - 1]!.x - bars[0]!.x;
  // Against the median, so that one misread bar does not tilt the line much.
  const middle = median(bars, (bar) => bar.y)!;
  const drift = ((slope(bars) ?? 0) / middle) * 100;
  const heard = Math.abs(drift * minutes) >= HEARD.share * 100;
  return { variation: rounded(Math.sqrt(variance) / mean, 4), drift: heard ? rounded(drift, 2) : 0 };
}
