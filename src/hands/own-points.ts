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
  const { length } = events;
  const tops = new Int32Array(length);
  const white = new Uint8Array(length);
  const fresh = new Uint8Array(length);
  const times = new Float64Array(length);
  for (let i = 0; i < length; i++) {
    const { keys, ease, interval } = events[i]!;
    tops[i] = keys[keys.length - 1]!;
    white[i] = isBlackKey(tops[i]!) ? 0 : 1;
    fresh[i] = ease > FRESH ? 1 : 0;
    times[i] = interval;
  }
  const points = new Float64Array(6 * length);
  let surroundings: Int32Array<ArrayBuffer> | undefined;
  for (let i = 0; i < length; i++) {
    if (events[i]!.keys.length !== 1) continue;
    const whites = (i > 0 ? white[i - 1]! : 0) + (i + 1 < length ? white[i + 1]! : 0);
    surroundings = surroundingsOf(tops, fresh, i, times, surroundings);
    let least = Number.POSITIVE_INFINITY;
    for (let finger = 1 as Finger; finger <= 5; finger++) {
      const own = costs.note(finger, white[i] === 0, whites) + costs.among(surroundings, finger);
      points[6 * i + finger] = own;
      if (own < least) least = own;
    }
    // The likeliest finger costs nothing, so that a placement is compared with fair fingers.
    const bias = learnt[i] ?? null;
    for (let finger = 1; finger <= 5; finger++) {
      points[6 * i + finger]! += (bias === null ? 0 : bias[finger]!) - least;
    }
  }
  return { points, learnt };
}
