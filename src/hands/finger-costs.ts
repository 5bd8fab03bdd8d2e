/**
 * The ergonomic rules of `ergonomics.ts` in tables, made once for a set of weights: the one account of what a finger,
 * a finger after a finger, and three in a row cost, for the free hand and for the hand in a placement alike. Keys as
 * the right hand sees them.
 */

import { isBlackKey } from "../pitch/index.ts";
import type { Finger } from "../take/index.ts";
import { noteRules, pairRules } from "./ergonomics.ts";
import { fingerSpan, isPracticable, reach } from "./finger-spans.ts";
import type { FingeringOptions } from "./fingerings.ts";
import { taughtPair } from "./taught.ts";

/** Distances beyond this many semitones cost what this distance costs: two octaves are a leap like three. */
const FAR = 36;
const WIDTH = 2 * FAR + 1;

export class FingerCosts {
  readonly #notes = new Float64Array(6 * 2 * 3);
  readonly #pairs = new Float64Array(36 * WIDTH * 4);
  readonly #beyond = new Float64Array(36 * WIDTH);
  readonly #threeFourFive: number;

  constructor(options: FingeringOptions) {
    const weights = options.weights!;
    const { taught } = options;
    let sum = 0;
    let crossed = false;
    const add = (rule: keyof typeof weights, points: number) => {
      if (crossed && (rule === "stretch" || rule === "small span")) return;
      sum += points * weights[rule];
    };
    for (let finger = 1; finger <= 5; finger++) {
      for (const black of [0, 1]) {
        for (let whites = 0; whites <= 2; whites++) {
          sum = 0;
          noteRules(whites > 0 ? 60 : null, black ? 61 : 60, whites > 1 ? 62 : null, finger as Finger, add);
          this.#notes[(finger * 2 + black) * 3 + whites] = sum + (taught?.fingers[finger as Finger] ?? 0);
        }
      }
    }
    for (let a = 1 as Finger; a <= 5; a++) {
      for (let b = 1 as Finger; b <= 5; b++) {
        const span = fingerSpan(a, b);
        for (let k = 0; k < WIDTH; k++) {
          const semitones = k - FAR;
          const seen = a === b ? semitones : reach(a, 0, b, semitones);
          const beyond = Math.max(seen - span.maxComf, span.minComf - seen);
          this.#beyond[(a * 6 + b) * WIDTH + k] = Math.max(beyond, 0);
          for (let colours = 0; colours < 4; colours++) {
            // Keys of these colours at this distance, where there are any: only the colours and the distance count.
            const from = FROM.find(
              (key) =>
                isBlackKey(key) === (colours & 2) > 0 && isBlackKey(key + semitones) === (colours & 1) > 0,
            );
            if (from === undefined) continue;
            const to = from + semitones;
            let cost = taught === undefined ? 0 : taughtPair(taught, from, a, to, b);
            if (semitones === 0 && taught !== undefined) {
              // No span is asked of a finger that follows another on its key.
              this.#pairs[((a * 6 + b) * WIDTH + k) * 4 + colours] = cost;
              continue;
            }
            if (a === b && semitones !== 0) cost += options.sameFinger!;
            else if (a !== b && !isPracticable(a, from, b, to)) cost += options.leap!;
            const crossing = a !== b && (a === 1 || b === 1) && reach(a, from, b, to) < 0;
            if (crossing) {
              cost += options.crossing!.each + options.crossing!.perSemitone * Math.abs(semitones);
            }
            sum = 0;
            crossed = crossing;
            pairRules(from, a, to, b, add);
            crossed = false;
            this.#pairs[((a * 6 + b) * WIDTH + k) * 4 + colours] = cost + sum;
          }
        }
      }
    }
    for (let i = 0; i < this.#beyond.length; i++) this.#beyond[i]! *= weights["position change size"];
    this.#threeFourFive = weights["three-four-five"];
  }

  /** A finger on a key; `whites`: how many of the keys before and after are white. */
  note(finger: Finger, black: boolean, whites: number): number {
    return this.#notes[(finger * 2 + (black ? 1 : 0)) * 3 + whites]!;
  }

  /**
   * Finger b on key `to` after finger a on key `from`. `tie`: how much the hand is bound from one to the other, 0 to 1;
   * another finger for the same key is a trouble that no time takes away.
   */
  pair(a: Finger, from: number, b: Finger, to: number, tie: number): number {
    const colours = (isBlackKey(from) ? 2 : 0) + (isBlackKey(to) ? 1 : 0);
    const points = this.#pairs[((a * 6 + b) * WIDTH + clamp(to - from)) * 4 + colours]!;
    return from === to && a !== b ? points : tie * points;
  }

  /** What three notes in a row add: the first and the last finger must suit each other as well. */
  triple(a: Finger, first: number, b: Finger, c: Finger, last: number): number {
    const beyond = this.#beyond[(a * 6 + c) * WIDTH + clamp(last - first)]!;
    return a >= 3 && b >= 3 && c >= 3 && a !== b && b !== c && a !== c
      ? beyond + this.#threeFourFive
      : beyond;
  }
}

const FROM = Array.from({ length: 12 }, (_, k) => 60 + k);

function clamp(semitones: number): number {
  return Math.max(-FAR, Math.min(FAR, semitones)) + FAR;
}
