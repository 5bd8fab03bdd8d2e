/**
 * What of a fingering scores and handbooks are asked about: small facts, each of which has its points in
 * `finger-points.ts`. The first are the published rules of `ergonomics.ts`; the others look at one finger among the keys
 * around it, at two fingers in a row, at three, or at two struck together. Keys as the right hand sees them; distances in steps of a
 * scale, so that a third is a third, large or small. The facts are those that studies of fingering count: the pair of
 * fingers with its distance, the colours of the keys, the direction, and what comes next [lit: Parncutt et al. 1997;
 * Nakamura, Saito and Yoshii 2020, the pairs of their model; memory].
 */
import { isBlackKey } from "../pitch/index.ts";
import type { Finger } from "../take/index.ts";
import { ERGONOMIC_RULES, type ErgonomicRule, noteRules, pairRules } from "./ergonomics.ts";
import { fingerSpan, isPracticable, reach } from "./finger-spans.ts";

/**
 * What lets the published rules, which were made for fragments, play whole lines: a pair that cannot be played bound is
 * a leap, and a passing thumb, or a finger over it, takes the hand along, in place of what the spans say of it.
 */
const LINE_RULES = ["leap", "crossing"] as const;

/**
 * How a hand that lies over five keys opens and closes, with the thumb and without it. [lit: Hanon, "The Virtuoso
 * Pianist", nos. 1 to 20; memory]
 */
const LAID = ["opened, thumb", "opened", "closed, thumb", "closed"] as const;

/** No pair of fingers is opened by more steps than this; what is wider is a move of the hand. */
const MOST_OPENED = 4;

/**
 * A finger leaves its key and strikes another one, in another place of the hand than the top: the line is broken. Two
 * fingers would have to cross, 3 below 2. Another finger takes a key that is struck again.
 */
const BESIDE = ["leaves a key", "crosses", "changes"] as const;

const RULE_AT = Object.fromEntries(
  [...ERGONOMIC_RULES, ...LINE_RULES].map((rule, k) => [rule, k]),
) as Readonly<Record<ErgonomicRule | (typeof LINE_RULES)[number], number>>;

/** Kinds of facts, each with how many of them there are. */
export const FACT_KINDS = {
  /** The published rules in their order, then the two of `LINE_RULES`. */
  rule: ERGONOMIC_RULES.length + LINE_RULES.length,
  /** A finger, wherever it plays alone. */
  finger: 5,
  /** The hand lies over five neighbouring keys, a finger to each: steps by which it opens or closes (`LAID`). */
  laid: LAID.length,
  /** A key struck again: by the same finger, by one nearer to the thumb, by one farther from it. */
  repeated: 3,
  /** Points of the published rules for two fingers that are struck together. */
  span: 1,
  /** What fingers beside the top line do (`BESIDE`). */
  beside: BESIDE.length,
  /** Two fingers in a row: which two, and how far apart, from the lower-numbered finger's side. */
  pair: 15 * 16,
  /** Two fingers in a row: which after which, black or white, up or down. */
  colours: 25 * 8,
  /** One key struck twice: which finger after which. */
  again: 25,
  /** One finger on two keys in a row: how far, up or down. */
  same: 17,
  /** The first and the last finger of three: which two, and how far apart. */
  outer: 15 * 16,
  /** Of three keys the last is the first again with another finger; or another key with the same, so far away. */
  returns: 7,
  /** A finger where the line comes from so far, and goes on so far. */
  around: 5 * 10 * 10,
  /** A finger where so much of the next notes, or of those before, lies so far above or below. */
  window: 5 * 8 * 8,
  /** Two fingers struck together: which, and how far apart. */
  together: 15 * 10,
  /** The same: which, and whether their keys are black or white. */
  lying: 15 * 4,
  /** A finger where the time before its note is longer or shorter than the time after it, and that than the next. */
  pace: 5 * 9,
} as const;

export type FactKind = keyof typeof FACT_KINDS;

/** Points for every fact, kind by kind. */
export type FingerPoints = Readonly<Record<FactKind, ArrayLike<number>>>;

/** Takes a fact, by its kind and its number there, and how often it holds. */
export type Fact = (kind: FactKind, index: number, times: number) => void;

/** Rounded to the nearest of the seven steps of an octave. */
function stepsIn(semitones: number): number {
  return Math.round((semitones * 7) / 12);
}

/** A finger on a key by its colour; `whites`: how many of the keys before and after are white. */
export function noteFacts(finger: Finger, black: boolean, whites: number, fact: Fact): void {
  noteRules(whites > 0 ? 60 : null, black ? 61 : 60, whites > 1 ? 62 : null, finger, (rule, points) =>
    fact("rule", RULE_AT[rule], points),
  );
  fact("finger", finger - 1, 1);
}

/** Two fingers in a row. */
export function pairFacts(from: number, a: Finger, to: number, b: Finger, fact: Fact): void {
  if (from === to) {
    fact("repeated", a === b ? 0 : b < a ? 1 : 2, 1);
    fact("again", (a - 1) * 5 + b - 1, 1);
    return;
  }
  const semitones = reach(a, from, b, to);
  fact("pair", twoOf(a, b) * 16 + within(stepsIn(semitones), -6, 9), 1);
  const colours = (isBlackKey(from) ? 4 : 0) + (isBlackKey(to) ? 2 : 0) + (to > from ? 1 : 0);
  fact("colours", ((a - 1) * 5 + b - 1) * 8 + colours, 1);
  if (a === b) {
    fact("same", within(stepsIn(to - from), -8, 8), 1);
    return;
  }
  const withThumb = a === 1 || b === 1;
  const crossing = withThumb && semitones < 0;
  if (semitones >= 0) {
    const spare = stepsIn(semitones) - Math.abs(a - b);
    if (spare > 0) fact("laid", withThumb ? 0 : 1, Math.min(MOST_OPENED, spare));
    if (spare < 0) fact("laid", withThumb ? 2 : 3, -spare);
  }
  if (crossing) fact("rule", RULE_AT.crossing, 1);
  if (!isPracticable(a, from, b, to)) fact("rule", RULE_AT.leap, 1);
  pairRules(from, a, to, b, (rule, points) => {
    if (!crossing || (rule !== "stretch" && rule !== "small span")) fact("rule", RULE_AT[rule], points);
  });
}

/** Three fingers in a row, the first and the last of whose keys are so many semitones apart. */
export function tripleFacts(a: Finger, b: Finger, c: Finger, semitones: number, fact: Fact): void {
  const span = fingerSpan(a, c);
  const seen = a === c ? semitones : reach(a, 0, c, semitones);
  const beyond = Math.max(seen - span.maxComf, span.minComf - seen);
  if (beyond > 0) fact("rule", RULE_AT["position change size"], beyond);
  if (a >= 3 && b >= 3 && c >= 3 && a !== b && b !== c && a !== c)
    fact("rule", RULE_AT["three-four-five"], 1);
  fact("outer", twoOf(a, c) * 16 + within(stepsIn(seen), -6, 9), 1);
  if (semitones === 0 && a !== c) fact("returns", 0, 1);
  if (semitones !== 0 && a === c) fact("returns", Math.min(6, Math.abs(stepsIn(semitones))), 1);
}

/** Two fingers struck together, the lower one first. */
export function togetherFacts(low: number, a: Finger, high: number, b: Finger, fact: Fact): void {
  pairRules(low, a, high, b, (_, points) => fact("span", 0, points));
  fact("together", twoOf(a, b) * 10 + within(stepsIn(high - low), 0, 9), 1);
  fact("lying", twoOf(a, b) * 4 + (isBlackKey(low) ? 2 : 0) + (isBlackKey(high) ? 1 : 0), 1);
}

/**
 * The keys around one that is struck alone, as numbers of facts for the thumb; other fingers follow at equal spaces. First
 * that of `around`, then that of `pace`, then those of `window`.
 */
export type Surroundings = ArrayLike<number>;

/** Facts of a finger among such keys. */
export function ownFacts(surroundings: Surroundings, finger: Finger, fact: Fact): void {
  fact("around", (finger - 1) * 100 + surroundings[0]!, 1);
  fact("pace", (finger - 1) * 9 + surroundings[1]!, 1);
  for (let k = 2; k < surroundings.length; k++) fact("window", (finger - 1) * 64 + surroundings[k]!, 1);
}

/** Freedom of the hand beyond which it starts anew: nothing is laid out across it. [practice] */
export const FRESH = 0.5;

/** True where one of three keys in a row is struck twice: the hand moves with the change of fingers, and is free after. */
export function isRestruck(first: number, middle: number, last: number): boolean {
  return first === middle || middle === last;
}

/** How many notes on either side the hand is laid out for: a turn, and a figure. [practice] */
const WINDOWS = [3, 5] as const;

/**
 * What lies around note i of a line, as far as the hand does not start anew.
 *
 * @param keys the outer line of a hand
 * @param fresh for every note whether the hand starts anew there
 * @param times seconds from the note before to each note; without them the notes are even
 * @param out where it is written; made anew when left out
 */
export function surroundingsOf(
  keys: ArrayLike<number>,
  fresh: ArrayLike<number>,
  i: number,
  times?: ArrayLike<number>,
  out = new Int32Array(2 + 4 * WINDOWS.length),
): Int32Array<ArrayBuffer> {
  const before = i === 0 || fresh[i] ? null : keys[i]! - keys[i - 1]!;
  const after = i + 1 >= keys.length || fresh[i + 1] ? null : keys[i + 1]! - keys[i]!;
  out[0] = 10 * interval(before) + interval(after);
  out[1] = paceAt(times, i);
  readWindows(keys, fresh, i, 1, out, 2);
  readWindows(keys, fresh, i, -1, out, 2 + 2 * WINDOWS.length);
  return out;
}

/** How far the keys go below and above that of note i, in every window on one side (`step` 1: after it, -1: before). */
function readWindows(
  keys: ArrayLike<number>,
  fresh: ArrayLike<number>,
  i: number,
  step: 1 | -1,
  out: Int32Array,
  at: number,
): void {
  const key = keys[i]!;
  let low = key;
  let high = key;
  let k = 1;
  for (let which = 0; which < WINDOWS.length; which++) {
    for (; k <= WINDOWS[which]!; k++) {
      const j = i + step * k;
      if (j < 0 || j >= keys.length || fresh[step > 0 ? j : j + 1]) break;
      const other = keys[j]!;
      if (other < low) low = other;
      if (other > high) high = other;
    }
    const first = (step > 0 ? 0 : 32) + 16 * which;
    out[at + 2 * which] = first + within(stepsIn(key - low), 0, 7);
    out[at + 2 * which + 1] = first + 8 + within(stepsIn(high - key), 0, 7);
  }
}

/** A time this much longer than the one before is longer; one shorter than this share of it is shorter. [practice] */
const UNEVEN = { longer: 1.4, shorter: 0.7 } as const;

/** How the times before note i, after it and after the next compare: 3 for each of the two comparisons. */
function paceAt(times: ArrayLike<number> | undefined, i: number): number {
  if (times === undefined) return 4;
  const before = times[i]!;
  const after = i + 1 < times.length ? times[i + 1]! : before;
  const later = i + 2 < times.length ? times[i + 2]! : after;
  return 3 * compared(after, before) + compared(later, after);
}

/** 0 for a shorter time than the one before, 1 for about the same, 2 for a longer one. */
function compared(time: number, before: number): number {
  if (time > UNEVEN.longer * before) return 2;
  return time < UNEVEN.shorter * before ? 0 : 1;
}

/** 0 for none, then the same key, and up or down by a step, a third, a fifth, or more. */
function interval(semitones: number | null): number {
  if (semitones === null) return 0;
  if (semitones === 0) return 1;
  const size = Math.abs(semitones);
  const kind = size <= 2 ? 0 : size <= 4 ? 1 : size <= 7 ? 2 : 3;
  return 2 + 2 * kind + (semitones > 0 ? 1 : 0);
}

/** Number of an unordered pair of fingers, 0 to 14, equal ones included. */
function twoOf(a: Finger, b: Finger): number {
  const [low, high] = a < b ? [a, b] : [b, a];
  return ((high - 1) * high) / 2 + low - 1;
}

/** Places above `least`, the ends taken for all that lies beyond them. */
function within(value: number, least: number, most: number): number {
  return Math.max(least, Math.min(most, value)) - least;
}
