/**
 * The cheapest fingerings of a line under the rules of `ergonomics.ts`: dynamic programming over the last two
 * fingers, and all fingerings within a bound of the cheapest. Right hand; mirror the keys for the left.
 */
import { isBlackKey } from "../pitch/index.ts";
import type { Finger } from "../take/index.ts";
import {
  type ErgonomicRule,
  noteRules,
  PUBLISHED_WEIGHTS,
  pairRules,
  type RuleWeights,
  tripleRules,
} from "./ergonomics.ts";
import type { FingerCosts } from "./finger-costs.ts";
import { FRESH, isRestruck, type Surroundings, surroundingsOf } from "./finger-features.ts";
import { isPracticable, reach } from "./finger-spans.ts";

export interface Fingering {
  readonly fingers: readonly Finger[];
  readonly cost: number;
}

export interface FingeringOptions {
  /** Fingers known beforehand, parallel to the keys; null where free. */
  readonly fixed?: readonly (Finger | null)[];
  /** 0 (bound to the note before) to 1 (free of it), parallel to the keys: what joins the two costs less by it. */
  readonly ease?: readonly number[];
  readonly weights?: RuleWeights;
  /** Added for a pair that cannot be played bound; where absent, such pairs are left out. */
  readonly leap?: number;
  /**
   * A passing thumb, or a finger over it, takes the hand along: it costs so much, and so much for each semitone, in
   * place of what the span rules say of it. Absent: the span rules alone.
   */
  readonly crossing?: { readonly each: number; readonly perSemitone: number };
  /** Added for one finger on two keys in a row; where absent, such pairs are left out. */
  readonly sameFinger?: number;
  /** Tables of what fingers cost in whole lines, in place of all the rules above. */
  readonly costs?: FingerCosts;
  /** With `costs`: what a finger costs on key i by itself, where more of the line is known than is searched. */
  readonly own?: (i: number, finger: Finger) => number;
}

const FINGERS: readonly Finger[] = [1, 2, 3, 4, 5];
const ONLY: readonly (readonly Finger[])[] = FINGERS.map((finger) => [finger]);

/** One search: the line, what was asked, and a counter that the rules add to, made once because it is called so often. */
class Search {
  readonly keys: readonly number[];
  readonly options: FingeringOptions;
  readonly #weights: RuleWeights;
  #sum = 0;
  #crossed = false;
  readonly #surroundings: readonly Surroundings[] = [];
  readonly add = (rule: ErgonomicRule, points: number): void => {
    if (this.#crossed && (rule === "stretch" || rule === "small span")) return;
    this.#sum += points * this.#weights[rule];
  };

  constructor(keys: readonly number[], options: FingeringOptions) {
    this.keys = keys;
    this.options = options;
    this.#weights = options.weights ?? PUBLISHED_WEIGHTS;
    if (options.costs === undefined || options.own !== undefined) return;
    const fresh = keys.map((_, i) => Number(i === 0 || (options.ease?.[i] ?? 0) > FRESH));
    this.#surroundings = keys.map((_, i) => surroundingsOf(keys, fresh, i));
  }

  /** What the tables say of a finger on key i by itself. */
  own(i: number, finger: Finger, costs: FingerCosts): number {
    if (this.options.own !== undefined) return this.options.own(i, finger);
    const whites = [this.keys[i - 1], this.keys[i + 1]].filter(
      (key) => key !== undefined && !isBlackKey(key),
    );
    const note = costs.note(finger, isBlackKey(this.keys[i]!), whites.length);
    return note + costs.among(this.#surroundings[i]!, finger);
  }

  /** Fingers that note i may have. */
  choices(i: number): readonly Finger[] {
    const fixed = this.options.fixed?.[i];
    return fixed === undefined || fixed === null ? FINGERS : ONLY[fixed - 1]!;
  }

  /** Starts a count; `crossed`: without what the span rules say of a passing thumb. */
  begin(crossed = false): void {
    this.#sum = 0;
    this.#crossed = crossed;
  }

  /** The weighted points since the count began. */
  get sum(): number {
    return this.#sum;
  }
}

/** The cheapest fingering, or null where no hand can play the line bound (only without `leap` and `sameFinger`). */
export function cheapestFingering(keys: readonly number[], options: FingeringOptions = {}): Fingering | null {
  if (keys.length === 0) return { fingers: [], cost: 0 };
  const search = new Search(keys, options);
  return enumerate(search, costsToEnd(search), 0, 1)[0] ?? null;
}

/** All fingerings at most `within` points dearer than the cheapest, cheapest first; at most `limit` of them. */
export function fingeringsWithin(
  keys: readonly number[],
  within: number,
  limit: number,
  options: FingeringOptions = {},
): Fingering[] {
  if (keys.length === 0) return [{ fingers: [], cost: 0 }];
  const search = new Search(keys, options);
  const found = enumerate(search, costsToEnd(search), within, limit);
  return found.sort((a, b) => a.cost - b.cost || compareFingers(a.fingers, b.fingers));
}

/** For note i, fingers a on i - 1 and b on i: the cheapest cost of all that comes after i. */
type Remaining = readonly Float64Array[];

function costsToEnd(search: Search): Remaining {
  const n = search.keys.length;
  const remaining: Float64Array[] = new Array(n);
  remaining[n - 1] = new Float64Array(36);
  for (let i = n - 2; i >= 0; i--) {
    const table = new Float64Array(36).fill(Number.POSITIVE_INFINITY);
    const next = remaining[i + 1]!;
    const pairs = new Float64Array(36);
    const [own, following] = [search.choices(i), search.choices(i + 1)];
    for (const b of own) for (const c of following) pairs[b * 6 + c] = joined(search, i + 1, b, c);
    for (const a of i === 0 ? [1 as Finger] : search.choices(i - 1)) {
      for (const b of own) {
        let best = Number.POSITIVE_INFINITY;
        for (const c of following) {
          let cost = pairs[b * 6 + c]! + next[b * 6 + c]!;
          if (cost >= best) continue;
          if (i > 0) cost += tripled(search, i + 1, a, b, c);
          if (cost < best) best = cost;
        }
        table[a * 6 + b] = best;
      }
    }
    if (i === 0) for (const a of FINGERS) for (const b of FINGERS) table[a * 6 + b] = table[6 + b]!;
    remaining[i] = table;
  }
  return remaining;
}

function enumerate(search: Search, remaining: Remaining, within: number, limit: number): Fingering[] {
  const { keys } = search;
  const firsts = FINGERS.map((finger) => ({ finger, cost: single(search, 0, finger) }));
  const best = Math.min(...firsts.map(({ finger, cost }) => cost + remaining[0]![6 + finger]!));
  if (!Number.isFinite(best)) return [];
  const bound = best + within + 1e-9;
  const found: Fingering[] = [];
  const fingers: Finger[] = [];
  // Depth first by hand: lines can be longer than the call stack is deep.
  interface Branch {
    readonly finger: Finger;
    readonly cost: number;
    readonly depth: number;
  }
  const stack: Branch[] = [];
  const offer = (branches: Branch[]) => {
    branches.sort((a, b) => b.cost + rest(b) - a.cost - rest(a) || b.finger - a.finger);
    stack.push(...branches);
  };
  const rest = ({ finger, depth }: Branch) =>
    remaining[depth]![(depth === 0 ? 1 : fingers[depth - 1]!) * 6 + finger]!;
  offer(
    firsts
      .filter(({ finger, cost }) => cost + remaining[0]![6 + finger]! <= bound)
      .map((one) => ({ ...one, depth: 0 })),
  );
  while (stack.length > 0 && found.length < limit) {
    const { finger, cost, depth } = stack.pop()!;
    fingers.length = depth;
    fingers.push(finger);
    if (depth === keys.length - 1) {
      found.push({ fingers: [...fingers], cost });
      continue;
    }
    const branches: Branch[] = [];
    for (const next of search.choices(depth + 1)) {
      let total = cost + joined(search, depth + 1, finger, next);
      if (depth > 0) total += tripled(search, depth + 1, fingers[depth - 1]!, finger, next);
      const branch = { finger: next, cost: total, depth: depth + 1 };
      if (total + rest(branch) <= bound) branches.push(branch);
    }
    offer(branches);
  }
  return found;
}

function single(search: Search, i: number, finger: Finger): number {
  const { keys, options } = search;
  const fixed = options.fixed?.[i];
  if (fixed !== undefined && fixed !== null && fixed !== finger) return Number.POSITIVE_INFINITY;
  if (options.costs !== undefined) return search.own(i, finger, options.costs);
  search.begin();
  noteRules(keys[i - 1] ?? null, keys[i]!, keys[i + 1] ?? null, finger, search.add);
  return search.sum;
}

/** Cost of note i with finger b after finger a, without what three notes cost. */
function joined(search: Search, i: number, a: Finger, b: Finger): number {
  const { keys, options } = search;
  const own = single(search, i, b);
  if (!Number.isFinite(own)) return own;
  const [from, to] = [keys[i - 1]!, keys[i]!];
  const ease = options.ease?.[i] ?? 0;
  if (options.costs !== undefined) return own + options.costs.pair(a, from, b, to, 1 - ease);
  let cost = 0;
  if (a === b && from !== to) {
    if (options.sameFinger === undefined) return Number.POSITIVE_INFINITY;
    cost += options.sameFinger;
  } else if (a !== b && !isPracticable(a, from, b, to)) {
    if (options.leap === undefined) return Number.POSITIVE_INFINITY;
    cost += options.leap;
  }
  const crossing =
    a !== b && (a === 1 || b === 1) && reach(a, from, b, to) < 0 ? options.crossing : undefined;
  if (crossing !== undefined) cost += crossing.each + crossing.perSemitone * Math.abs(to - from);
  search.begin(crossing !== undefined);
  pairRules(from, a, to, b, search.add);
  return own + (cost + search.sum) * (1 - ease);
}

function tripled(search: Search, i: number, a: Finger, b: Finger, c: Finger): number {
  const { keys, options } = search;
  const ease = Math.max(options.ease?.[i] ?? 0, options.ease?.[i - 1] ?? 0);
  if (ease >= 1) return 0;
  if (options.costs !== undefined) {
    if (isRestruck(keys[i - 2]!, keys[i - 1]!, keys[i]!)) return 0;
    return (1 - ease) * options.costs.triple(a, keys[i - 2]!, b, c, keys[i]!);
  }
  search.begin();
  tripleRules(keys[i - 2]!, a, keys[i - 1]!, b, keys[i]!, c, search.add);
  return search.sum * (1 - ease);
}

function compareFingers(a: readonly Finger[], b: readonly Finger[]): number {
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return a[i]! - b[i]!;
  return 0;
}
