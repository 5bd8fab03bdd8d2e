/** States of all events of a line in flat columns, each with its cost and the state before it: made for speed. */
import type { Finger } from "../take/index.ts";

/** The hand is in no shape. */
export const FREE = -1;

/** How an event is played from the placement it is given. */
export type Manner = "held" | "outside" | "slide" | "finger change" | "added finger" | "free";

/** What the path says of one event. */
export interface Step {
  /** State of the view, or `FREE`. */
  readonly state: number;
  readonly manner: Manner;
  /** Finger of the highest key as the right hand sees it; null where the placement does not give it. */
  readonly finger: Finger | null;
}

export interface Path {
  readonly steps: readonly Step[];
  readonly cost: number;
}

export const HELD = 0;
export const OUTSIDE = 1;
export const SLIDE = 2;
export const CHANGE = 3;
export const AT_LARGE = 4;
const MANNERS: readonly Manner[] = ["held", "outside", "slide", "finger change", "free"];

export class ViterbiColumns {
  state: Int32Array;
  cost: Float64Array;
  /** Row of the state before, -1 at the start. */
  back: Int32Array;
  manner: Uint8Array;
  /** Finger on the highest key, 0 when unknown. */
  finger: Uint8Array;
  /** Rows filled. */
  count = 0;

  constructor(capacity: number) {
    this.state = new Int32Array(capacity);
    this.cost = new Float64Array(capacity);
    this.back = new Int32Array(capacity);
    this.manner = new Uint8Array(capacity);
    this.finger = new Uint8Array(capacity);
  }

  /** Makes room for so many more rows, so that the columns stay where they are while those are pushed. */
  reserve(more: number): void {
    if (this.count + more > this.state.length) this.#grow(this.count + more);
  }

  /** One more row; room for it must have been reserved. */
  push(state: number, cost: number, back: number, manner: number, finger: number): void {
    const k = this.count++;
    this.state[k] = state;
    this.cost[k] = cost;
    this.back[k] = back;
    this.manner[k] = manner;
    this.finger[k] = finger;
  }

  /** Row of the cheapest state from one row to before another; -1 for none. */
  cheapest(from: number, to: number): number {
    let best = -1;
    for (let k = from; k < to; k++) {
      if (best < 0 || this.cost[k]! < this.cost[best]!) best = k;
    }
    return best;
  }

  /** The path that ends in a row. */
  pathTo(row: number): Path {
    const steps: Step[] = [];
    for (let k = row; k >= 0; k = this.back[k]!) {
      const finger = this.finger[k]!;
      steps.push({
        state: this.state[k]!,
        manner: MANNERS[this.manner[k]!]!,
        finger: finger === 0 ? null : (finger as Finger),
      });
    }
    return { steps: steps.reverse(), cost: this.cost[row]! };
  }

  #grow(needed: number): void {
    const capacity = Math.max(needed, 2 * this.state.length + 64);
    this.state = copyInto(new Int32Array(capacity), this.state);
    this.cost = copyInto(new Float64Array(capacity), this.cost);
    this.back = copyInto(new Int32Array(capacity), this.back);
    this.manner = copyInto(new Uint8Array(capacity), this.manner);
    this.finger = copyInto(new Uint8Array(capacity), this.finger);
  }
}

function copyInto<T extends { set(from: T): void }>(to: T, from: T): T {
  to.set(from);
  return to;
}
