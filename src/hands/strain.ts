/** What the fingers of a line cost the hand, note by note, in the currency of `costs.ts`: the same for every state. */

import type { Finger } from "../take/index.ts";
import { PLACEMENT_COSTS as COST } from "./costs.ts";
import type { HandEvent } from "./hand-event.ts";
import type { PathWeights } from "./line-weights.ts";
import { type OwnPoints, ownPoints } from "./own-points.ts";

export class Strain {
  /** What finger b costs on the highest key of event i after finger a on that of the event before, at 36 i + 6 a + b. */
  readonly pairs: Float64Array;
  readonly #learnt: Uint8Array;
  /** Event i with finger f on its key, at 6 i + f. */
  readonly owns: Float64Array;
  /** For every event the least that any two fingers cost there. */
  readonly #leastPair: Float64Array;
  /** The points of every finger by itself, not yet in that currency. */
  readonly points: OwnPoints;

  constructor(events: readonly HandEvent[], weights: PathWeights) {
    this.points = ownPoints(events, weights.costs);
    this.pairs = pairsOf(events, weights);
    this.#leastPair = Float64Array.from(events, (_, i) => {
      let least = 0;
      for (let k = 36 * i; k < 36 * i + 36; k++) if (this.pairs[k]! < least) least = this.pairs[k]!;
      return least;
    });
    this.#learnt = Uint8Array.from(this.points.learnt, (bias) => (bias === null ? 0 : 1));
    this.owns = this.points.points.map((points) => COST.ergonomic * points);
  }

  /** The same within a placement: the whole hand lies over its keys, so that the thumb reaches a black one. */
  placed(i: number, finger: number): number {
    return COST.lying * this.owns[6 * i + finger]!;
  }

  /** Share of what a free note costs: a scale or arpeggio known by heart goes on by itself. */
  free(i: number): number {
    return this.#learnt[i] === 1 ? COST.byHeart : 1;
  }

  /** Event i with a finger on its key; 0 (unknown) costs nothing. */
  own(i: number, finger: number): number {
    return this.owns[6 * i + finger]!;
  }

  /** Event i with finger b on its highest key after finger a on that of the event before; 0 (unknown) costs nothing. */
  pair(i: number, a: number, b: number): number {
    return this.pairs[36 * i + 6 * a + b]!;
  }

  /** The least of `pair` over all fingers, 0 or below. */
  leastPair(i: number): number {
    return this.#leastPair[i]!;
  }
}

function pairsOf(events: readonly HandEvent[], { costs, together }: PathWeights): Float64Array {
  const pairs = new Float64Array(36 * events.length);
  for (let i = 1; i < events.length; i++) {
    const [event, before] = [events[i]!, events[i - 1]!];
    const [top, last] = [event.keys.length - 1, before.keys.length - 1];
    const slid = event.slides[top] === last;
    const tie = 1 - event.ease;
    const [from, to] = [before.keys[last]!, event.keys[top]!];
    const start = costs.pairStart(from, to);
    for (let a = 1 as Finger; a <= 5; a++) {
      for (let b = 1 as Finger; b <= 5; b++) {
        const k = 6 * a + b;
        let points: number;
        if (slid) points = a === b ? together.slideKept : together.slideLost;
        else if (from === to) points = costs.pair(a, from, b, to, tie);
        else points = tie * costs.pairs[start + k]!;
        pairs[36 * i + k] = Math.min(COST.ergonomic * points, COST.mostPair);
      }
    }
  }
  return pairs;
}
