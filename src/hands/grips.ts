/** Grips: the ways in which one hand can take the keys of a moment, those that it strikes and those it still holds. */
import type { Finger } from "../take/index.ts";
import { fingerSpan } from "./finger-spans.ts";
import type { HandEvent } from "./hand-event.ts";
import type { PathWeights } from "./line-weights.ts";

/** Keys of one moment, rising, as the right hand sees them. */
export interface Moment {
  readonly keys: readonly number[];
  /** For every key the index of the struck note in its event, or -1 where the key is held from before. */
  readonly struck: readonly number[];
}

export interface Grip {
  /** A finger for every key of the moment; null only where no hand reaches all of them. */
  readonly fingers: readonly (Finger | null)[];
  /** Of the keys together; what a single finger costs on its key depends on its neighbours and is counted elsewhere. */
  readonly cost: number;
}

/** No hand spans more: thumb to little finger, MaxPrac of Parncutt et al. 1997. */
const WIDEST = 15;

/** The struck keys, and those held keys that the hand can still hold beside them. */
export function momentOf(event: HandEvent): Moment {
  const rows = event.keys.map((key, n) => ({ key, n }));
  const [low, high] = [event.keys[0]!, event.keys[event.keys.length - 1]!];
  for (const key of event.held) {
    const fits = Math.max(high, key) - Math.min(low, key) <= WIDEST && rows.length < 5;
    if (fits && !event.keys.includes(key)) rows.push({ key, n: -1 });
  }
  rows.sort((a, b) => a.key - b.key);
  return { keys: rows.map(({ key }) => key), struck: rows.map(({ n }) => n) };
}

/** All grips within reach that keep the known fingers (parallel to the keys); one without fingers where there is none. */
export function gripsOf(
  moment: Moment,
  known: readonly (Finger | null)[],
  { costs }: PathWeights,
): readonly Grip[] {
  const { keys } = moment;
  if (keys.length === 1) return singleGrips(known[0]!);
  const found: Grip[] = [];
  const choose = (chosen: readonly Finger[], cost: number): void => {
    const n = chosen.length;
    if (n === keys.length) {
      found.push({ fingers: chosen, cost });
      return;
    }
    const lowest = n === 0 ? 1 : chosen[n - 1]! + 1;
    const highest = 5 - (keys.length - 1 - n);
    for (let finger = lowest as Finger; finger <= highest; finger++) {
      if (known[n] !== null && known[n] !== finger) continue;
      let more = 0;
      let reachable = true;
      for (let m = 0; m < n && reachable; m++) {
        reachable = keys[n]! - keys[m]! <= fingerSpan(chosen[m]!, finger).maxPrac;
        more += costs.together(keys[m]!, chosen[m]!, keys[n]!, finger);
      }
      if (reachable) choose([...chosen, finger], cost + more);
    }
  };
  choose([], 0);
  return found.length > 0 ? found : [{ fingers: known, cost: 0 }];
}

const SINGLES: readonly Grip[] = ([1, 2, 3, 4, 5] as const).map((finger) => ({ fingers: [finger], cost: 0 }));

const EACH_SINGLE: readonly (readonly Grip[])[] = SINGLES.map((grip) => [grip]);

/** Grips of a single key: one for every finger, or that of the known one. */
export function singleGrips(known: Finger | null): readonly Grip[] {
  return known === null ? SINGLES : EACH_SINGLE[known - 1]!;
}

/** True where the keys can be held in comfort with the known fingers kept. */
export function canHold(keys: readonly number[], known: readonly (Finger | null)[]): boolean {
  const from = (chosen: readonly Finger[]): boolean => {
    const n = chosen.length;
    if (n === keys.length) return true;
    const highest = 5 - (keys.length - 1 - n);
    for (let finger = (n === 0 ? 1 : chosen[n - 1]! + 1) as Finger; finger <= highest; finger++) {
      const given = known[n] ?? null;
      if (given !== null && given !== finger) continue;
      const reached = chosen.every(
        (other, m) => keys[n]! - keys[m]! <= fingerSpan(other, finger as Finger).maxComf,
      );
      if (reached && from([...chosen, finger as Finger])) return true;
    }
    return false;
  };
  return from([]);
}
