/**
 * The delay between a click as the page gives it and a key as the page hears it, measured by tapping along: the way to
 * the loudspeaker and the way from the keyboard. The player's own habit of tapping early or late is in it too, and
 * cannot be told apart from it.
 */

/** Clicks that are tapped along with, and those before them that are only listened into. */
export const TAPS = 16;
export const LISTEN = 4;
/** Seconds from click to click: 100 a minute, near the tempo at which people tap most evenly (Repp 2005 [memory]). */
export const CLICK_EVERY = 0.6;

/** Taps without which nothing is said: a quarter may be missed. */
const FEWEST = 12;
/** Two taps closer than this (seconds) are one finger that bounced. */
const BOUNCE = 0.12;
/** Earliest delay that a tap can mean: people tap up to a tenth of a second before a click (Repp 2005 [memory]). */
const EARLIEST = -0.15;
/**
 * The delay is to be sure to this (standard error, seconds): a half of the 30 ms by which notes of an ensemble that
 * plays together are apart (Rasch 1979 [memory]).
 */
const SURE = 0.015;
/** Standard error of a median against that of a mean, and standard deviation against the median deviation. [lit] */
const MEDIAN_ERROR = 1.2533;
const DEVIATION = 1.4826;

export type DelayResult =
  | { readonly kind: "measured"; readonly seconds: number; readonly spread: number; readonly taps: number }
  | { readonly kind: "refused"; readonly why: string };

/**
 * @param clicks seconds of the clicks as they are heard, every `CLICK_EVERY`
 * @param taps seconds of the taps, by the same clock, in any order
 * @returns the median of what taps come after clicks, never below 0; or why nothing can be said
 */
export function delayOf(clicks: readonly number[], taps: readonly number[]): DelayResult {
  const sorted = [...taps].sort((a, b) => a - b);
  const single = sorted.filter((t, i) => i === 0 || t - sorted[i - 1]! > BOUNCE);
  const from = (clicks[0] ?? 0) + EARLIEST;
  const until = (clicks.at(-1) ?? 0) + CLICK_EVERY;
  const meant = single.filter((t) => t >= from && t <= until);
  if (meant.length < FEWEST) {
    return {
      kind: "refused",
      why: `${meant.length} of ${clicks.length} clicks were tapped; at least ${FEWEST} are needed. Tap one key with every click.`,
    };
  }
  const offsets = aroundOneMean(meant.map((t) => t - clicks[0]!));
  const middle = median(offsets);
  const spread = DEVIATION * median(offsets.map((one) => Math.abs(one - middle)));
  if ((MEDIAN_ERROR * spread) / Math.sqrt(offsets.length) > SURE) {
    return {
      kind: "refused",
      why: `The taps lie ${Math.round(spread * 1000)} ms apart from each other, too far to tell a delay by. Tap again, as evenly as you can.`,
    };
  }
  return {
    kind: "measured",
    // No way is shorter than none: a tap before the click is the player's.
    seconds: Number(Math.max(0, middle).toFixed(3)),
    spread: Number(spread.toFixed(3)),
    taps: offsets.length,
  };
}

/** Times as offsets from their clicks, whichever clicks those are: all within half a step of where most of them lie. */
function aroundOneMean(times: readonly number[]): number[] {
  const turn = (2 * Math.PI) / CLICK_EVERY;
  const sine = times.reduce((sum, t) => sum + Math.sin(t * turn), 0);
  const cosine = times.reduce((sum, t) => sum + Math.cos(t * turn), 0);
  const mean = Math.atan2(sine, cosine) / turn;
  const centre = mean - CLICK_EVERY * Math.floor((mean - EARLIEST) / CLICK_EVERY);
  return times.map((t) => t - CLICK_EVERY * Math.round((t - centre) / CLICK_EVERY));
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
}

/** What is known of the delays of this computer: seconds by the name of what is played on. */
export type Delays = Readonly<Record<string, number>>;

/** Reads what was kept; whatever is no delay is passed over. */
export function readDelays(kept: string | null): Delays {
  try {
    const value: unknown = JSON.parse(kept ?? "{}");
    if (typeof value !== "object" || value === null) return {};
    return Object.fromEntries(
      Object.entries(value).filter(
        ([, seconds]) => typeof seconds === "number" && seconds >= 0 && seconds < 1,
      ),
    ) as Delays;
  } catch {
    return {};
  }
}

export function withDelay(delays: Delays, device: string, seconds: number): Delays {
  return { ...delays, [device]: seconds };
}

export function withoutDelay(delays: Delays, device: string): Delays {
  return Object.fromEntries(Object.entries(delays).filter(([name]) => name !== device));
}

/** "Stage piano: 84 ms" */
export function delayWords(device: string, seconds: number): string {
  return `${device[0]!.toUpperCase()}${device.slice(1)}: ${Math.round(seconds * 1000)} ms, taken off what is recorded`;
}
