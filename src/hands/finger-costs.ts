/**
 * What a finger, a finger after a finger, and three in a row cost, in tables made once from the points of
 * `finger-features.ts`: the one account of it for the free hand and for the hand in a placement alike. Keys as the right
 * hand sees them.
 */

import { isBlackKey } from "../pitch/index.ts";
import type { Finger } from "../take/index.ts";
import {
  type Fact,
  type FingerPoints,
  noteFacts,
  pairFacts,
  type Surroundings,
  togetherFacts,
  tripleFacts,
} from "./finger-features.ts";

/** Distances beyond this many semitones cost what this distance costs: two octaves are a leap like three. */
const FAR = 36;
const WIDTH = 2 * FAR + 1;

/** For one finger on two keys in a row, beside its points: the line breaks. [practice] */
const SAME_FINGER = 12;

/** For another finger on a key that is struck again after the hand came to rest: there was no need of it. [practice] */
const RESTED = 2;

/**
 * Share of its points by which a fingering is judged where its likelihood counts: they were drawn by few scores and are
 * surer than they should be. Of 0.5, 0.7, 1 and 1.4, tried by leaving each score out in turn, the one under which most
 * printed fingers are met.
 */
const SURENESS = 0.7;

/** How likely something of these points is, beside what costs nothing. */
export function oddsOf(points: number): number {
  return Math.exp(-SURENESS * points);
}

export class FingerCosts {
  readonly #points: FingerPoints;
  readonly #notes = new Float64Array(6 * 2 * 3);
  /** Finger b after finger a, at `pairStart` + 6 a + b; and how likely that is. */
  readonly pairs = new Float64Array(WIDTH * 4 * 36);
  readonly pairOdds: Float64Array;
  /** What fingers a, b and c in a row add, at `tripleStart` + 36 a + 6 b + c; and how likely they are by it. */
  readonly triples = new Float64Array(WIDTH * 216);
  readonly tripleOdds: Float64Array;
  #sum = 0;
  readonly #fact: Fact = (kind, index, times) => {
    this.#sum += times * this.#points[kind][index]!;
  };

  constructor(points: FingerPoints) {
    this.#points = points;
    for (let a = 1 as Finger; a <= 5; a++) {
      for (let k = 0; k < 6; k++) {
        this.#notes[a * 6 + k] = this.#summed(() => noteFacts(a, k >= 3, k % 3, this.#fact));
      }
      for (let b = 1 as Finger; b <= 5; b++) {
        for (let k = 0; k < WIDTH; k++) {
          this.#fillPairs(a, b, k);
          for (let c = 1 as Finger; c <= 5; c++) {
            this.triples[k * 216 + a * 36 + b * 6 + c] = this.#summed(() =>
              tripleFacts(a, b, c, k - FAR, this.#fact),
            );
          }
        }
      }
    }
    this.#fromNothing();
    // Finger 0 is none, of which nothing is said.
    for (let k = 0; k < this.triples.length; k++) {
      if (k % 6 === 0 || Math.floor(k / 6) % 6 === 0 || Math.floor(k / 36) % 6 === 0) this.triples[k] = 0;
    }
    this.pairOdds = this.pairs.map(oddsOf);
    this.tripleOdds = this.triples.map(oddsOf);
  }

  /**
   * What is cheapest costs nothing: of the fingers on any two keys, and of all three in a row. Every path has as many
   * of them, so that no path is preferred by it; a search may stop early, and a placement is compared with fair fingers.
   */
  #fromNothing(): void {
    const { pairs, triples } = this;
    const fingers = FINGERS.flatMap((a) => FINGERS.map((b) => a * 6 + b));
    for (let start = 0; start < pairs.length; start += 36) {
      const least = Math.min(...fingers.map((both) => pairs[start + both]!));
      for (const both of fingers) pairs[start + both]! -= least;
    }
    const least = triples.reduce((one, other) => Math.min(one, other), 0);
    for (let k = 0; k < triples.length; k++) triples[k]! -= least;
  }

  /** A finger on a key; `whites`: how many of the keys before and after are white. */
  note(finger: Finger, black: boolean, whites: number): number {
    return this.#notes[finger * 6 + (black ? 3 : 0) + whites]!;
  }

  /** The same finger among the keys around its own: what `ownFacts` tells of it. */
  among(surroundings: Surroundings, finger: Finger): number {
    const { around, window, pace } = this.#points;
    let sum = around[(finger - 1) * 100 + surroundings[0]!]! + pace[(finger - 1) * 9 + surroundings[1]!]!;
    for (let k = 2; k < surroundings.length; k++) sum += window[(finger - 1) * 64 + surroundings[k]!]!;
    return sum;
  }

  /** Finger b on key `to` after finger a on key `from`. `tie`: how much the hand is bound from one to the other, 0 to 1. */
  pair(a: Finger, from: number, b: Finger, to: number, tie: number): number {
    const points = tie * this.pairs[this.pairStart(from, to) + a * 6 + b]!;
    return from === to && a !== b ? points + (1 - tie) * RESTED : points;
  }

  /** Where in `pairs` the fingers on these two keys begin. */
  pairStart(from: number, to: number): number {
    const colours = (isBlackKey(from) ? 2 : 0) + (isBlackKey(to) ? 1 : 0);
    return (clamp(to - from) * 4 + colours) * 36;
  }

  /** What three notes in a row add: the first and the last finger must suit each other as well. */
  triple(a: Finger, first: number, b: Finger, c: Finger, last: number): number {
    return this.triples[this.tripleStart(first, last) + a * 36 + b * 6 + c]!;
  }

  /** Where in `triples` the fingers on three keys begin, of which the first and the last are these. */
  tripleStart(first: number, last: number): number {
    return clamp(last - first) * 216;
  }

  /** Two fingers struck together, beside what their span costs. */
  together(low: number, a: Finger, high: number, b: Finger): number {
    return this.#summed(() => togetherFacts(low, a, high, b, this.#fact));
  }

  #summed(facts: () => void): number {
    this.#sum = 0;
    facts();
    return this.#sum;
  }

  #fillPairs(a: Finger, b: Finger, k: number): void {
    const semitones = k - FAR;
    for (let colours = 0; colours < 4; colours++) {
      // Keys of these colours at this distance, where there are any: only the colours and the distance count.
      const from = FROM.find(
        (key) => isBlackKey(key) === (colours & 2) > 0 && isBlackKey(key + semitones) === (colours & 1) > 0,
      );
      if (from === undefined) continue;
      const points = this.#summed(() => pairFacts(from, a, from + semitones, b, this.#fact));
      this.pairs[(k * 4 + colours) * 36 + a * 6 + b] =
        points + (a === b && semitones !== 0 ? SAME_FINGER : 0);
    }
  }
}

const FINGERS: readonly Finger[] = [1, 2, 3, 4, 5];
const FROM = Array.from({ length: 12 }, (_, k) => 60 + k);

function clamp(semitones: number): number {
  return Math.max(-FAR, Math.min(FAR, semitones)) + FAR;
}
