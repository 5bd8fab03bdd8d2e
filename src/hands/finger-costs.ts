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
  ownFacts,
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
  readonly #pairs = new Float64Array(36 * WIDTH * 4);
  readonly #triples = new Float64Array(216 * WIDTH);
  readonly #tripleOdds: Float64Array;
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
            this.#triples[((a * 6 + b) * 6 + c) * WIDTH + k] = this.#summed(() =>
              tripleFacts(a, b, c, k - FAR, this.#fact),
            );
          }
        }
      }
    }
    this.#fromNothing();
    this.#tripleOdds = this.#triples.map(oddsOf);
  }

  /**
   * What is cheapest costs nothing: of the fingers on any two keys, and of all three in a row. Every path has as many
   * of them, so that no path is preferred by it; a search may stop early, and a placement is compared with fair fingers.
   */
  #fromNothing(): void {
    const pairs = FINGERS.flatMap((a) => FINGERS.map((b) => (a * 6 + b) * WIDTH * 4));
    for (let k = 0; k < WIDTH * 4; k++) {
      const least = Math.min(...pairs.map((start) => this.#pairs[start + k]!));
      for (const start of pairs) this.#pairs[start + k]! -= least;
    }
    const least = this.#triples.reduce((one, other) => Math.min(one, other), 0);
    for (let k = 0; k < this.#triples.length; k++) this.#triples[k]! -= least;
  }

  /** A finger on a key; `whites`: how many of the keys before and after are white. */
  note(finger: Finger, black: boolean, whites: number): number {
    return this.#notes[finger * 6 + (black ? 3 : 0) + whites]!;
  }

  /** The same finger among the keys around its own. */
  among(surroundings: Surroundings, finger: Finger): number {
    this.#sum = 0;
    ownFacts(surroundings, finger, this.#fact);
    return this.#sum;
  }

  /** Finger b on key `to` after finger a on key `from`. `tie`: how much the hand is bound from one to the other, 0 to 1. */
  pair(a: Finger, from: number, b: Finger, to: number, tie: number): number {
    const colours = (isBlackKey(from) ? 2 : 0) + (isBlackKey(to) ? 1 : 0);
    const points = tie * this.#pairs[((a * 6 + b) * WIDTH + clamp(to - from)) * 4 + colours]!;
    return from === to && a !== b ? points + (1 - tie) * RESTED : points;
  }

  /** What three notes in a row add: the first and the last finger must suit each other as well. */
  triple(a: Finger, first: number, b: Finger, c: Finger, last: number): number {
    return this.#triples[((a * 6 + b) * 6 + c) * WIDTH + clamp(last - first)]!;
  }

  /** How likely three notes in a row are by that, as far as they are bound together (0 to 1). */
  tripleOdds(a: Finger, first: number, b: Finger, c: Finger, last: number, bound: number): number {
    const at = ((a * 6 + b) * 6 + c) * WIDTH + clamp(last - first);
    return bound === 1 ? this.#tripleOdds[at]! : oddsOf(bound * this.#triples[at]!);
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
      this.#pairs[((a * 6 + b) * WIDTH + k) * 4 + colours] =
        points + (a === b && semitones !== 0 ? SAME_FINGER : 0);
    }
  }
}

const FINGERS: readonly Finger[] = [1, 2, 3, 4, 5];
const FROM = Array.from({ length: 12 }, (_, k) => 60 + k);

function clamp(semitones: number): number {
  return Math.max(-FAR, Math.min(FAR, semitones)) + FAR;
}
