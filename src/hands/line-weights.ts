/** What a fingering costs where a whole line is played, notes one by one and together. Points; 1 is a small reason. */
import type { Finger } from "../take/index.ts";
import type { RuleWeights } from "./ergonomics.ts";
import type { FingeringOptions } from "./fingerings.ts";

/**
 * Weights that fit whole lines, where the published ones (all 1) were fitted to fragments. All numbers of this file but
 * `sameFinger`, `substitution` and the slides were drawn together, from where the handbooks had put them, towards the
 * likeliest printed fingers of one half of a set of fingered scores and, counting less, of the handbooks' scales and
 * arpeggios: what a fingering costs was read as its improbability. The other half was not looked at until they stood
 * (`npm run report -- fingering FOLDER` prints both).
 */
const LINE_WEIGHTS: RuleWeights = {
  stretch: 0.22,
  "small span": 1.42,
  "large span": 0.48,
  "position change count": 0,
  "position change size": 0.67,
  "weak finger": 0.76,
  "three-four-five": 0,
  "three to four": 0.75,
  "four on black": 0.98,
  "thumb on black": 1.76,
  "five on black": 1.54,
  "thumb passing": 2.35,
};

/** How lines are fingered here: the hand may leap, and a passing thumb takes it along. */
export const LINE_FINGERING: FingeringOptions = {
  weights: LINE_WEIGHTS,
  leap: 1.73,
  sameFinger: 12,
  crossing: { each: 2.97, perSemitone: 0 },
  taught: {
    fingers: { 1: 0.53, 2: 0, 3: -0.09, 4: 0.26, 5: 0.31 },
    again: { same: 1.47, towards: 0.6, away: 1.31 },
    opened: { thumb: 0.41, others: 0.29 },
    closed: { thumb: 0.47, others: 0.42 },
  },
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
  /** Thumb and second finger on two keys a third apart or wider: thirds are taken by 1 3, 2 4, 3 5. */
  readonly thirds: number;
  /** Share of what joins two keys of the top line where either is struck with others. */
  readonly top: number;
}

export const TOGETHER: TogetherWeights = {
  weak: { 1: 0, 2: 0, 3: 0, 4: 0.33, 5: 0.74 },
  leavesKey: 4.31,
  crosses: 2.27,
  octaveShare: 0.5,
  changesFinger: 0.66,
  substitution: 3,
  slideKept: 0.4,
  slideLost: 10,
  span: 0.93,
  apart: 0.12,
  top: 0.37,
  thirds: 0.59,
};
