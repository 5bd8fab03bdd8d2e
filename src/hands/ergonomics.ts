/**
 * What a fingering costs the hand: the twelve rules of Parncutt, Sloboda, Clarke, Raekallio and Desain, "An
 * ergonomic model of keyboard fingering for melodic fragments" (Music Perception 14, 1997). Right hand, one note at
 * a time, MIDI numbers. A rule looks at one note with the colours of its neighbours, at two notes, or at three.
 */
import { isBlackKey } from "../pitch/index.ts";
import type { Finger } from "../take/index.ts";
import { fingerSpan, reach } from "./finger-spans.ts";

export const ERGONOMIC_RULES = [
  "stretch",
  "small span",
  "large span",
  "position change count",
  "position change size",
  "weak finger",
  "three-four-five",
  "three to four",
  "four on black",
  "thumb on black",
  "five on black",
  "thumb passing",
] as const;

export type ErgonomicRule = (typeof ERGONOMIC_RULES)[number];

/** Factor on the published points of each rule. */
export type RuleWeights = Readonly<Record<ErgonomicRule, number>>;

/** The rules as published. */
export const PUBLISHED_WEIGHTS: RuleWeights = Object.fromEntries(
  ERGONOMIC_RULES.map((rule) => [rule, 1]),
) as Record<ErgonomicRule, number>;

/** The points of every rule over a whole fingering, and their sum. */
export interface FingeringCost {
  readonly total: number;
  readonly rules: Readonly<Record<ErgonomicRule, number>>;
}

/**
 * Points of a fingering under each rule. `keys` and `fingers` are parallel.
 *
 * @example costOfFingering([76, 79, 77, 79, 76, 77, 74, 76], [2, 4, 3, 4, 2, 3, 1, 3]).total   // 6
 */
export function costOfFingering(
  keys: readonly number[],
  fingers: readonly Finger[],
  weights: RuleWeights = PUBLISHED_WEIGHTS,
): FingeringCost {
  const rules = Object.fromEntries(ERGONOMIC_RULES.map((rule) => [rule, 0])) as Record<ErgonomicRule, number>;
  const add = (rule: ErgonomicRule, points: number) => {
    rules[rule] += points * weights[rule];
  };
  for (let i = 0; i < keys.length; i++) {
    const finger = fingers[i]!;
    noteRules(keys[i - 1] ?? null, keys[i]!, keys[i + 1] ?? null, finger, add);
    if (i >= 1) pairRules(keys[i - 1]!, fingers[i - 1]!, keys[i]!, finger, add);
    if (i >= 2) {
      tripleRules(keys[i - 2]!, fingers[i - 2]!, keys[i - 1]!, fingers[i - 1]!, keys[i]!, finger, add);
    }
  }
  return { total: Object.values(rules).reduce((sum, points) => sum + points, 0), rules };
}

type Add = (rule: ErgonomicRule, points: number) => void;

/** Weak finger, thumb on black, five on black. */
export function noteRules(
  before: number | null,
  key: number,
  after: number | null,
  finger: Finger,
  add: Add,
): void {
  if (finger >= 4) add("weak finger", 1);
  if (!isBlackKey(key) || (finger !== 1 && finger !== 5)) return;
  const whiteNeighbours =
    (before !== null && !isBlackKey(before) ? 1 : 0) + (after !== null && !isBlackKey(after) ? 1 : 0);
  if (finger === 1) add("thumb on black", 1 + 2 * whiteNeighbours);
  else add("five on black", 2 * whiteNeighbours);
}

/** Stretch, small and large span, three to four, four on black, thumb passing. */
export function pairRules(from: number, a: Finger, to: number, b: Finger, add: Add): void {
  if (a === b) return;
  const span = fingerSpan(a, b);
  const semitones = reach(a, from, b, to);
  const withThumb = a === 1 || b === 1;
  const each = withThumb ? 1 : 2;
  if (semitones > span.maxComf) add("stretch", 2 * (semitones - span.maxComf));
  if (semitones < span.minComf) add("stretch", 2 * (span.minComf - semitones));
  if (semitones < span.minRel) add("small span", each * (span.minRel - semitones));
  if (semitones > span.maxRel) add("large span", each * (semitones - span.maxRel));
  if (a === 3 && b === 4) add("three to four", 1);
  const [keyOf3, keyOf4] = a === 3 ? [from, to] : [to, from];
  const threeAndFour = (a === 3 && b === 4) || (a === 4 && b === 3);
  if (threeAndFour && !isBlackKey(keyOf3) && isBlackKey(keyOf4)) add("four on black", 1);
  if (withThumb && semitones < 0) {
    const [thumb, other] = a === 1 ? [from, to] : [to, from];
    if (isBlackKey(thumb) === isBlackKey(other)) add("thumb passing", 1);
    else if (isBlackKey(thumb)) add("thumb passing", 3);
  }
}

/** Position change, its count and its size, and three-four-five. */
export function tripleRules(
  first: number,
  a: Finger,
  middle: number,
  b: Finger,
  last: number,
  c: Finger,
  add: Add,
): void {
  const span = fingerSpan(a, c);
  const semitones = a === c ? last - first : reach(a, first, c, last);
  const beyond = Math.max(semitones - span.maxComf, span.minComf - semitones);
  if (beyond > 0) {
    const between = (middle > first && middle < last) || (middle < first && middle > last);
    const full = b === 1 && between && (semitones > span.maxPrac || semitones < span.minPrac);
    add("position change count", full ? 2 : 1);
    add("position change size", beyond);
  }
  if (a !== b && b !== c && a !== c && a >= 3 && b >= 3 && c >= 3) add("three-four-five", 1);
}
