import { chanceOfStep, chanceOfSymbol, type MarkovModel } from "./markov.ts";

/**
 * Near repeats: the same melody, at any pitch, with one note changed, added or left out. They are sought in the steps
 * between notes, where a changed note bends two neighbouring steps and keeps their sum, an added note divides a step
 * in two, and a dropped one joins two.
 */

export const NEAR_CHANGES = ["none", "changed", "added", "dropped"] as const;

export type NearChange = (typeof NEAR_CHANGES)[number];

export interface NearMatch {
  /** Place of the first note. */
  readonly start: number;
  readonly notes: number;
  readonly change: NearChange;
  /** Which note of the pattern, from 1, was changed or dropped, or after which one a note was added; 0 for none. */
  readonly at: number;
}

/** Step across a breath: no interval of an instrument, and not the same as itself in any pattern. */
export const NO_STEP = 1 << 20;

/**
 * All places where a pattern of steps occurs with at most one note changed, added or dropped.
 *
 * @param steps semitones from each place to the next; `NO_STEP` across a breath
 * @param pattern semitones; at least three steps
 */
export function nearMatches(steps: Int32Array, pattern: readonly number[]): NearMatch[] {
  const found: NearMatch[] = [];
  for (let start = 0; start < steps.length; start++) {
    const match = nearMatchAt(steps, pattern, start);
    if (match !== null) found.push(match);
  }
  return found;
}

function nearMatchAt(steps: Int32Array, pattern: readonly number[], start: number): NearMatch | null {
  const m = pattern.length;
  let k = 0;
  while (k < m && steps[start + k] === pattern[k]) k++;
  if (k === m) return matchOf(start, m + 1, "none", 0);
  if (!sounds(steps, start + k)) {
    return k === m - 1 && k > 2 ? matchOf(start, m, "dropped", m + 1) : null;
  }
  const step = steps[start + k]!;
  if (k === m - 1) return matchOf(start, m + 1, "changed", m + 1);
  const both = sounds(steps, start + k + 1) ? step + steps[start + k + 1]! : NO_STEP;
  if (both === pattern[k]! + pattern[k + 1]! && agrees(steps, start + k + 2, pattern, k + 2)) {
    return matchOf(start, m + 1, "changed", k + 2);
  }
  if (both === pattern[k] && agrees(steps, start + k + 2, pattern, k + 1)) {
    return matchOf(start, m + 2, "added", k + 1);
  }
  if (step === pattern[k]! + pattern[k + 1]! && agrees(steps, start + k + 1, pattern, k + 2)) {
    return matchOf(start, m, "dropped", k + 2);
  }
  if (k === 0 && agrees(steps, start + 1, pattern, 1)) return matchOf(start, m + 1, "changed", 1);
  return null;
}

// A function of the file, not a closure: this is asked at every place of a line.
function matchOf(start: number, notes: number, change: NearChange, at: number): NearMatch {
  return { start, notes, change, at };
}

function sounds(steps: Int32Array, at: number): boolean {
  return at < steps.length && steps[at] !== NO_STEP;
}

function agrees(steps: Int32Array, at: number, pattern: readonly number[], from: number): boolean {
  for (let k = from; k < pattern.length; k++) if (steps[at + k - from] !== pattern[k]) return false;
  return true;
}

/**
 * Matches that do not overlap: unchanged ones first, then in time order. Neighbours may share a note, except that a
 * changed end note belongs to one of them only.
 */
export function apartMatches(matches: readonly NearMatch[], places: number): NearMatch[] {
  const taken = new Uint8Array(places);
  const kept: NearMatch[] = [];
  for (const exact of [true, false]) {
    for (const match of matches) {
      if ((match.change === "none") !== exact) continue;
      // Inner places only: two occurrences may share the note between them.
      let free = true;
      for (let i = match.start; i < match.start + match.notes - 1 && free; i++) free = taken[i] === 0;
      if (!free) continue;
      taken.fill(1, match.start, match.start + match.notes - 1);
      kept.push(match);
    }
  }
  return kept.sort((a, b) => a.start - b.start);
}

/** How likely the steps of a line are, one alone and two together: what near repeats are weighed against. */
export interface StepChances {
  readonly model: MarkovModel;
  /** Symbol of an interval in the model, or -1 when it never occurs. */
  symbolOf(interval: number): number;
  /** Chance that two steps in a row add up to an interval. */
  two(interval: number): number;
}

export function stepChances(steps: Int32Array, model: MarkovModel, codes: Int32Array): StepChances {
  const symbols = new Map<number, number>();
  codes.forEach((code, symbol) => {
    symbols.set(code - 128, symbol);
  });
  const sums = new Map<number, number>();
  let pairs = 0;
  for (let i = 0; i + 1 < steps.length; i++) {
    if (steps[i] === NO_STEP || steps[i + 1] === NO_STEP) continue;
    const sum = steps[i]! + steps[i + 1]!;
    sums.set(sum, (sums.get(sum) ?? 0) + 1);
    pairs++;
  }
  return {
    model,
    symbolOf: (interval) => symbols.get(interval) ?? -1,
    two: (interval) => ((sums.get(interval) ?? 0) + 0.5) / (pairs + 24),
  };
}

/**
 * Chance that a line of this kind plays a pattern unchanged, and with one note changed, added or dropped, at a given
 * place; as if `unheard` occurrences had not been played.
 */
export function nearChance(
  chances: StepChances,
  pattern: readonly number[],
  unheard: number,
): { exact: number; near: number } {
  const { model } = chances;
  const m = pattern.length;
  const symbols = pattern.map((interval) => chances.symbolOf(interval));
  const lost = unheard * m;
  const times = (test: (k: number) => boolean) => {
    let count = 0;
    for (let k = 0; k < m; k++) if (test(k)) count++;
    return count;
  };
  const lone = symbols.map((s) => chanceOfSymbol(model, s, unheard * times((k) => symbols[k] === s), lost));
  const link = symbols.map((s, i) => {
    const before = symbols[i - 1];
    if (before === undefined) return 1;
    const pairs = times((k) => k > 0 && symbols[k] === s && symbols[k - 1] === before);
    const firsts = times((k) => k < m - 1 && symbols[k] === before);
    return chanceOfStep(model, before, s, unheard * pairs, unheard * firsts, lone[i]!);
  });
  const upTo = [1];
  for (let i = 0; i < m; i++) upTo.push(upTo[i]! * (i === 0 ? lone[0]! : link[i]!));
  const from = new Array<number>(m + 1).fill(1);
  let tail = 1;
  for (let i = m - 1; i >= 0; i--) {
    from[i] = lone[i]! * tail;
    tail *= link[i]!;
  }
  let near = upTo[m - 1]! + from[1]!;
  for (let i = 0; i < m; i++) {
    near += upTo[i]! * chances.two(pattern[i]!) * from[i + 1]!;
    if (i + 1 >= m) continue;
    const sum = pattern[i]! + pattern[i + 1]!;
    const joined = chanceOfSymbol(model, chances.symbolOf(sum), 0, 0);
    near += upTo[i]! * (chances.two(sum) + joined) * from[i + 2]!;
  }
  return { exact: upTo[m]!, near: Math.min(1, near) };
}
