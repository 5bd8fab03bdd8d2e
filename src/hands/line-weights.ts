/** What a fingering costs where a whole line is played, notes one by one and together. Points; 1 is a small reason. */
import type { Finger } from "../take/index.ts";
import type { RuleWeights } from "./ergonomics.ts";
import type { FingeringOptions } from "./fingerings.ts";

/**
 * Weights that fit whole lines, where the published ones (all 1) were fitted to fragments: chosen so that scales and
 * arpeggios come out as the handbooks print them, then drawn back towards the published ones as far as the handbooks
 * allow and half of a set of fingered scores asks for it (`npm run report -- fingering FOLDER` prints the other half).
 */
const LINE_WEIGHTS: RuleWeights = {
  stretch: 0.7,
  "small span": 1,
  "large span": 0,
  "position change count": 0,
  "position change size": 1,
  "weak finger": 0.25,
  "three-four-five": 0,
  "three to four": 0.8,
  "four on black": 1,
  "thumb on black": 3,
  "five on black": 4,
  "thumb passing": 1.4,
};

/** How lines are fingered here: the hand may leap, and a passing thumb takes it along. */
export const LINE_FINGERING: FingeringOptions = {
  weights: LINE_WEIGHTS,
  leap: 1.2,
  sameFinger: 12,
  crossing: { each: 1.5, perSemitone: 0 },
};

/** What the rules of one note after the other do not say. [practice] but for the spans. */
export interface TogetherWeights {
  /** A weak finger among keys struck together: the little finger has the weight of the hand behind it. */
  readonly weak: Readonly<Record<Finger, number>>;
  /** A finger leaves its key and strikes another one, in another place of the hand than the top: the line is broken. */
  readonly leavesKey: number;
  /** Two fingers would have to cross: 3 below 2. */
  readonly crosses: number;
  /** Share of what joins two chords where the hand holds an octave and moves as a whole. */
  readonly octaveShare: number;
  /** Another finger takes a key that is struck again, or is held on. */
  readonly changesFinger: number;
  readonly substitution: number;
  /** The finger of a note that slides into the next key, kept; and lost. */
  readonly slideKept: number;
  readonly slideLost: number;
  /** Spans of keys struck together, as a share of the published points. */
  readonly span: number;
  /** Share of what joins two notes that is left however much time there is between them: the hand stays where it lay. */
  readonly apart: number;
  /** Share of what joins two keys of the top line where either is struck with others. */
  readonly top: number;
}

export const TOGETHER: TogetherWeights = {
  weak: { 1: 0, 2: 0, 3: 0, 4: 0.5, 5: 0.4 },
  leavesKey: 3,
  crosses: 2,
  octaveShare: 0.2,
  changesFinger: 0.5,
  substitution: 3,
  slideKept: 0.4,
  slideLost: 10,
  span: 1,
  apart: 0.15,
  top: 1,
};
