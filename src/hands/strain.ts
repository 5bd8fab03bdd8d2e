/** What the fingers of a line cost the hand, note by note, in the currency of `costs.ts`: the same for every state. */

import { isBlackKey } from "../pitch/index.ts";
import type { Finger } from "../take/index.ts";
import { PLACEMENT_COSTS as COST } from "./costs.ts";
import { LINE_COSTS } from "./finger-path.ts";
import type { HandEvent } from "./hand-event.ts";
import { TOGETHER } from "./line-weights.ts";
import { biasesOf } from "./scale-fingers.ts";

export class Strain {
  readonly #pairs: Float64Array;
  readonly #learnt: Uint8Array;
  readonly #own: Float64Array;

  constructor(events: readonly HandEvent[]) {
    this.#pairs = pairsOf(events);
    this.#own = new Float64Array(6 * events.length);
    const biases = biasesOf(events);
    this.#learnt = Uint8Array.from(biases, (bias) => (bias === null ? 0 : 1));
    events.forEach((event, i) => {
      if (event.keys.length !== 1) return;
      const black = isBlackKey(event.keys[0]!);
      let whites = 0;
      for (const other of [events[i - 1], events[i + 1]]) {
        if (other !== undefined && !isBlackKey(other.keys[other.keys.length - 1]!)) whites++;
      }
      for (let finger = 1 as Finger; finger <= 5; finger++) {
        const points = LINE_COSTS.note(finger, black, whites) + (biases[i]?.[finger] ?? 0);
        this.#own[6 * i + finger] = COST.ergonomic * points;
      }
    });
  }

  /** The same within a placement: the whole hand lies over its keys, so that the thumb reaches a black one. */
  placed(i: number, finger: number): number {
    return COST.lying * this.#own[6 * i + finger]!;
  }

  /** Share of what a free note costs: a scale or arpeggio known by heart goes on by itself. */
  free(i: number): number {
    return this.#learnt[i] === 1 ? COST.byHeart : 1;
  }

  /** Event i with a finger on its key; 0 (unknown) costs nothing. */
  own(i: number, finger: number): number {
    return this.#own[6 * i + finger]!;
  }

  /** Event i with finger b on its highest key after finger a on that of the event before; 0 (unknown) costs nothing. */
  pair(i: number, a: number, b: number): number {
    return this.#pairs[36 * i + 6 * a + b]!;
  }
}

function pairsOf(events: readonly HandEvent[]): Float64Array {
  const pairs = new Float64Array(36 * events.length);
  for (let i = 1; i < events.length; i++) {
    const [event, before] = [events[i]!, events[i - 1]!];
    const [top, last] = [event.keys.length - 1, before.keys.length - 1];
    const slid = event.slides[top] === last;
    const tie = 1 - event.ease;
    for (let a = 1 as Finger; a <= 5; a++) {
      for (let b = 1 as Finger; b <= 5; b++) {
        const points = slid
          ? tie * (a === b ? TOGETHER.slideKept : TOGETHER.slideLost)
          : LINE_COSTS.pair(a, before.keys[last]!, b, event.keys[top]!, tie);
        pairs[36 * i + 6 * a + b] = Math.min(COST.ergonomic * points, COST.mostPair);
      }
    }
  }
  return pairs;
}
