import type { MotifViewpoint } from "../account.ts";
import { binomialTail, logFactorial } from "./chance.ts";
import { chanceOfPattern, leastChance, type MarkovModel, markovOf } from "./markov.ts";
import { visitRepeats } from "./repeats.ts";
import { type SortedText, sharedPrefixes } from "./symbol-text.ts";
import { OF_STEPS } from "./viewpoints.ts";

/** A pattern that returns more often than chance would have it. */
export interface Candidate {
  readonly viewpoint: MotifViewpoint;
  /** Places in the line at which it starts, rising; no two overlap. */
  readonly starts: readonly number[];
  /** Number of notes. */
  readonly notes: number;
  /** Codes of the viewpoint. */
  readonly pattern: readonly number[];
  /** Occurrences by chance, next to the one that is given. */
  readonly expected: number;
  /** Chance that a pattern heard once comes back at least so often. */
  readonly p: number;
  /** Of an idea that lives on varied returns: their number, and the chance of a plain return alone. */
  readonly varied?: { readonly returns: number; readonly exact: number };
}

/** What one viewpoint held. */
export interface Discovery {
  readonly candidates: readonly Candidate[];
  /** Number of patterns that could have been found: one from each place on. */
  readonly tests: number;
  readonly model: MarkovModel;
}

/** Fewest notes of an idea in each viewpoint: the less a viewpoint tells, the longer. [practice] */
const SHORTEST: Readonly<Record<MotifViewpoint, number>> = {
  "chromatic interval": 4,
  "interval and rhythm": 4,
  degree: 4,
  contour: 6,
  rhythm: 5,
  finger: 4,
};

/** False-discovery rate at which ideas are kept. */
export const RATE = 0.05;
/**
 * An idea returns at least so many times as often as by chance. In a long take the least excess passes any test, and
 * the model, from which the idea's own returns are taken out, expects too little of what is merely frequent. [practice]
 */
export const LIFT = 4;
/** No p-value above it is handed on. */
const HOPELESS = 0.01;
/** Occurrences that cover the line more often than this lie on top of each other: a trill or a vamp, no idea. */
const LAYERS = 4;
/** Most candidates that are handed on, the ones that cover most first. */
const MOST = 4_000;

/**
 * The maximal repeats of a text that come back more often than a Markov model of the same text would have them.
 * A pattern is tested given that it was heard once, so the test is of its return; overlapping occurrences count once.
 */
export function discover(text: SortedText, viewpoint: MotifViewpoint): Discovery {
  const { sorted, breaks, places, codes } = text;
  const model = markovOf(text);
  const extra = OF_STEPS[viewpoint] ? 1 : 0;
  const trials = Math.max(1, model.total - 1);
  // The rate asks this much of the last of so many candidates, so more than that of all.
  const limit = Math.min(HOPELESS, (RATE * MOST) / trials);
  const logLimit = Math.log(limit);
  const kept: { length: number; from: number; to: number; gain: number }[] = [];
  visitRepeats(text.text, sorted, sharedPrefixes(text), SHORTEST[viewpoint] - extra, (length, from, to) => {
    const count = to - from + 1;
    if (length * count > LAYERS * text.text.length) return;
    if (isRocking(text.text, sorted[from]!, length)) return;
    const least = leastChance(model, text.text, breaks, sorted[from]!, length, count - 1);
    if (least > 0 && isHopeless(count - 1, trials * least, limit, logLimit)) return;
    const chance = chanceOfPattern(model, text.text, breaks, sorted[from]!, length, count - 1);
    if (isHopeless(count - 1, trials * chance, limit, logLimit)) return;
    kept.push({ length, from, to, gain: length * (count - 1) });
  });
  kept.sort((a, b) => b.gain - a.gain || a.from - b.from);
  const candidates: Candidate[] = [];
  for (const { length, from, to } of kept.slice(0, MOST)) {
    const starts = apart(sorted.slice(from, to + 1).sort(), length);
    if (starts.length < 2) continue;
    const at = starts[0]!;
    const chance = chanceOfPattern(model, text.text, breaks, at, length, starts.length - 1);
    const p = binomialTail(starts.length - 1, trials, chance);
    if (p > limit) continue;
    candidates.push({
      viewpoint,
      starts: starts.map((start) => places[start]!),
      notes: length + extra,
      pattern: Array.from({ length }, (_, k) => codes[text.text[at + k]! - breaks]!),
      expected: trials * chance,
      p,
    });
  }
  return { candidates, tests: trials, model };
}

/** Too near to chance, or by a quick lower bound of the tail, from its first term in Poisson's limit, too likely. */
function isHopeless(returns: number, expected: number, limit: number, logLimit: number): boolean {
  if (LIFT * expected > returns) return true;
  // A single return is the commonest case by far, and needs no logarithm: its chance is all but the expectation.
  if (returns === 1 && expected < 0.1) return expected > 1.2 * limit;
  return returns * Math.log(expected) - expected - logFactorial(returns) > logLimit;
}

/** One symbol over and over, or two in turn: repeated notes, even notes, a trill. They go on; they do not return. */
export function isRocking(text: Int32Array, at: number, length: number): boolean {
  for (let k = at + 2; k < at + length; k++) if (text[k] !== text[k - 2]) return false;
  return true;
}

/** Starts that lie at least so many symbols apart, the first ones first; steps may share the note between them. */
function apart(rising: Int32Array, symbols: number): number[] {
  const kept: number[] = [];
  let free = Number.NEGATIVE_INFINITY;
  for (const start of rising) {
    if (start < free) continue;
    kept.push(start);
    free = start + symbols;
  }
  return kept;
}
