/** What every finger costs on a key that is struck alone, by the keys around it and by what is known by heart. */
import { isBlackKey } from "../pitch/index.ts";
import type { Finger } from "../take/index.ts";
import type { FingerCosts } from "./finger-costs.ts";
import { FRESH, surroundingsOf } from "./finger-features.ts";
import type { HandEvent } from "./hand-event.ts";
import { type Bias, biasesOf } from "./scale-fingers.ts";

export interface OwnPoints {
  /** Points of finger f on the key of event i at 6 i + f; 0 where several keys are struck. */
  readonly points: Float64Array;
  /** For every event what is known by heart of it. */
  readonly learnt: readonly Bias[];
}

/** @param learnt what scales known by heart add; none of it where fingerings themselves are asked about */
export function ownPoints(
  events: readonly HandEvent[],
  costs: FingerCosts,
  learnt: readonly Bias[] = biasesOf(events),
): OwnPoints {
  const tops = Int32Array.from(events, ({ keys }) => keys[keys.length - 1]!);
  const fresh = Uint8Array.from(events, ({ ease }) => Number(ease > FRESH));
  const times = Float64Array.from(events, ({ interval }) => interval);
  const points = new Float64Array(6 * events.length);
  events.forEach((event, i) => {
    if (event.keys.length !== 1) return;
    const black = isBlackKey(tops[i]!);
    let whites = 0;
    if (i > 0 && !isBlackKey(tops[i - 1]!)) whites++;
    if (i + 1 < tops.length && !isBlackKey(tops[i + 1]!)) whites++;
    const surroundings = surroundingsOf(tops, fresh, i, times);
    let least = Number.POSITIVE_INFINITY;
    for (let finger = 1 as Finger; finger <= 5; finger++) {
      const own = costs.note(finger, black, whites) + costs.among(surroundings, finger);
      points[6 * i + finger] = own;
      if (own < least) least = own;
    }
    // The likeliest finger costs nothing, so that a placement is compared with fair fingers.
    for (let finger = 1; finger <= 5; finger++) points[6 * i + finger]! += (learnt[i]?.[finger] ?? 0) - least;
  });
  return { points, learnt };
}
