import type { SymbolText } from "./symbol-text.ts";

/**
 * A first-order Markov model of a line in one viewpoint: what it would play if each step hung on the one before it
 * alone. It can be asked as if some occurrences of a pattern had not been played: a take that lives on one idea
 * would otherwise teach the model that idea, and nothing would ever stand out.
 */
export interface MarkovModel {
  /** Number of symbols that are not breaks. */
  readonly total: number;
  readonly symbols: number;
  /** Of each symbol, and of each pair of neighbours. */
  readonly single: Float64Array;
  pair(a: number, b: number): number;
  /** The pairs as a square table, or null where there are too many symbols for one. */
  readonly square: Float64Array | null;
  /** Number of times that a symbol is followed by one. */
  readonly followed: Float64Array;
}

/** Weight of the lone symbols behind the pairs, in notes: Dirichlet smoothing as in MacKay & Peto 1995. */
const PRIOR = 2;
/** Half a note for each symbol behind the lone ones (Krichevsky & Trofimov 1981). */
const HALF = 0.5;
/** Beyond so many symbols chance is as good as nothing, and the rest is not worth the time. */
const LONGEST = 48;
/** Alphabets up to this size keep their pairs in a square table. */
const SQUARE = 1200;

/** Symbols are counted from 0, without the breaks. */
export function markovOf({ text, breaks, codes }: SymbolText): MarkovModel {
  const symbols = codes.length;
  const single = new Float64Array(symbols);
  const followed = new Float64Array(symbols);
  const square = symbols <= SQUARE ? new Float64Array(symbols * symbols) : null;
  const sparse = new Map<number, number>();
  let total = 0;
  for (let i = 0; i < text.length; i++) {
    const a = text[i]! - breaks;
    if (a < 0) continue;
    single[a]!++;
    total++;
    const b = i + 1 < text.length ? text[i + 1]! - breaks : -1;
    if (b < 0) continue;
    followed[a]!++;
    const key = a * symbols + b;
    if (square !== null) square[key]!++;
    else sparse.set(key, (sparse.get(key) ?? 0) + 1);
  }
  return {
    total,
    symbols,
    single,
    followed,
    square,
    pair: square !== null ? (a, b) => square[a * symbols + b]! : (a, b) => sparse.get(a * symbols + b) ?? 0,
  };
}

/** Chance of one symbol, as if it had been played `unheard` times less. */
export function chanceOfSymbol(model: MarkovModel, a: number, unheard: number, unheardTotal: number): number {
  const own = (model.single[a] ?? 0) - unheard;
  return (Math.max(0, own) + HALF) / (Math.max(0, model.total - unheardTotal) + HALF * (model.symbols + 1));
}

/**
 * Chance of symbol b after a, as if some had been unheard.
 *
 * @param unheardPair times that the pair, `unheardFirst` times that a with any follower, was not played
 */
export function chanceOfStep(
  model: MarkovModel,
  a: number,
  b: number,
  unheardPair: number,
  unheardFirst: number,
  chanceOfB: number,
): number {
  const pair = Math.max(0, model.pair(a, b) - unheardPair);
  const first = Math.max(pair, (model.followed[a] ?? 0) - unheardFirst);
  return (pair + PRIOR * chanceOfB) / (first + PRIOR);
}

/**
 * Chance that the model plays a pattern at a given place, as if `unheard` of the pattern's occurrences had not been.
 *
 * @param text symbols with breaks, of which the pattern is `length` from `at` on
 */
export function chanceOfPattern(
  model: MarkovModel,
  text: Int32Array,
  breaks: number,
  at: number,
  length: number,
  unheard: number,
): number {
  const end = at + Math.min(length, LONGEST);
  const lost = unheard * (end - at);
  let chance = chanceOfSymbol(model, text[at]! - breaks, unheard * occurrences(text, at, end, at), lost);
  for (let i = at + 1; i < end; i++) {
    const [a, b] = [text[i - 1]!, text[i]!];
    let pairs = 0;
    let firsts = 0;
    let seconds = b === text[at]! ? 1 : 0;
    for (let k = at + 1; k < end; k++) {
      const first = text[k - 1] === a;
      const second = text[k] === b;
      if (first) firsts++;
      if (second) seconds++;
      if (first && second) pairs++;
    }
    const lone = chanceOfSymbol(model, b - breaks, unheard * seconds, lost);
    chance *= chanceOfStep(model, a - breaks, b - breaks, unheard * pairs, unheard * firsts, lone);
  }
  return Math.min(1, chance);
}

/**
 * A quick lower bound of `chanceOfPattern`, from the pairs alone; 0 where it would have to be worked out. Most repeats
 * of a long line are plainly due to chance, and this is enough to see it.
 */
export function leastChance(
  model: MarkovModel,
  text: Int32Array,
  breaks: number,
  at: number,
  length: number,
  unheard: number,
): number {
  const { square, symbols, followed } = model;
  if (square === null) return 0;
  const lost = unheard * length;
  let a = text[at]! - breaks;
  let chance = Math.max(0, model.single[a]! - lost) / (model.total + HALF * (symbols + 1));
  for (let i = at + 1; i < at + length; i++) {
    const b = text[i]! - breaks;
    // At worst the pattern is this pair all along, and all that is unheard is taken from it.
    const pair = square[a * symbols + b]! - lost;
    if (pair <= 0) return 0;
    chance *= pair / (followed[a]! + PRIOR);
    a = b;
  }
  return chance;
}

function occurrences(text: Int32Array, from: number, to: number, of: number): number {
  let count = 0;
  for (let i = from; i < to; i++) if (text[i] === text[of]) count++;
  return count;
}
