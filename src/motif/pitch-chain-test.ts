import { binomialTail } from "./chance.ts";
import type { Candidate } from "./discovery.ts";
import { chanceOfPattern, type MarkovModel } from "./markov.ts";
import { type PitchChain, pitchChain } from "./pitch-chain.ts";
import type { SoloLine } from "./solo-line.ts";
import { type SymbolText, symbolsOf } from "./symbol-text.ts";
import { intervalOf } from "./variants.ts";
import { rhythmPart } from "./viewpoints.ts";

/** The rhythm of a line as a text with its model: a pitch says nothing of how long it is held. */
export interface RhythmModel {
  readonly text: SymbolText;
  readonly model: MarkovModel;
}

/** Weighs candidates anew against a chain of pitches; see `pitchChain`. */
export class PitchChainTest {
  readonly #pitches: PitchChain;
  readonly #rhythm: RhythmModel;

  constructor(line: SoloLine, steps: Int32Array, rhythm: RhythmModel) {
    this.#pitches = pitchChain(line.heads, steps);
    this.#rhythm = rhythm;
  }

  /**
   * The same candidate with the larger of the two chances. Rhythm and fingers stay as they are: no pitch tells them.
   *
   * @param trials places at which the pattern could have returned
   */
  weigh(candidate: Candidate, trials: number): Candidate {
    const chance = this.#chanceOf(candidate);
    if (chance === null || trials * chance <= candidate.expected) return candidate;
    return {
      ...candidate,
      expected: trials * chance,
      p: binomialTail(candidate.starts.length - 1, trials, Math.min(1, chance)),
    };
  }

  #chanceOf(candidate: Candidate): number | null {
    const { viewpoint, pattern, notes } = candidate;
    const unheard = candidate.starts.slice(1).map((start) => ({ start, notes }));
    switch (viewpoint) {
      case "chromatic interval": {
        const intervals = pattern.map((code) => intervalOf(candidate, code));
        const plain = this.#pitches.intervals(intervals, unheard);
        return candidate.varied === undefined
          ? plain
          : plain + this.#pitches.nearIntervals(intervals, unheard);
      }
      case "interval and rhythm": {
        const intervals = pattern.map((code) => intervalOf(candidate, code));
        return this.#pitches.intervals(intervals, unheard) * this.#rhythmChance(pattern, unheard.length);
      }
      case "contour":
        return this.#pitches.contours(pattern, unheard);
      case "degree":
        return this.#pitches.degrees(pattern, unheard);
      case "rhythm":
      case "finger":
        return null;
    }
  }

  #rhythmChance(pattern: readonly number[], unheard: number): number {
    const { model, text } = this.#rhythm;
    const symbols = symbolsOf(text, pattern.map(rhythmPart));
    return symbols === null ? 0 : chanceOfPattern(model, symbols, 0, 0, symbols.length, unheard);
  }
}
