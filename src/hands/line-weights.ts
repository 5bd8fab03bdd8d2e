/**
 * What a fingering costs where a whole line is played, notes one by one and together. Points; one is a factor of
 * 2.7 in how likely a fingering is, as far as scores and handbooks tell (`finger-points.ts`).
 */
import { FingerCosts } from "./finger-costs.ts";
import type { FingerPoints } from "./finger-features.ts";
import { FINGER_POINTS } from "./finger-points.ts";
import type { FingeringOptions } from "./fingerings.ts";

/** What the points say of two moments where one has several keys; the others of these are [practice]. */
export interface TogetherWeights {
  /** A finger leaves its key and strikes another one, in another place of the hand than the top: the line is broken. */
  readonly leavesKey: number;
  /** Two fingers would have to cross: 3 below 2. */
  readonly crosses: number;
  /** Another finger takes a key that is struck again, or is held on. */
  readonly changesFinger: number;
  readonly substitution: number;
  /** Share of what joins two chords where the hand holds an octave and moves as a whole. */
  readonly octaveShare: number;
  /** The same from one octave to the next, which thumb and little finger strike again and again. */
  readonly octavesShare: number;
  /** The finger of a note that slides into the next key, kept; and lost. */
  readonly slideKept: number;
  readonly slideLost: number;
  /** Share of what joins two notes that is left however much time there is between them: the hand stays where it lay. */
  readonly apart: number;
  /** Share of what joins two keys of the top line where either is struck with others. */
  readonly top: number;
}

export interface PathWeights {
  readonly costs: FingerCosts;
  readonly together: TogetherWeights;
}

/** How lines are fingered by such points. */
export function weightsOf(points: FingerPoints): PathWeights {
  const [leavesKey, crosses, changesFinger] = points.beside as readonly [number, number, number];
  return {
    costs: new FingerCosts(points),
    together: {
      leavesKey,
      crosses,
      changesFinger,
      substitution: 3,
      octaveShare: 0.5,
      octavesShare: 0.05,
      slideKept: 0.4,
      slideLost: 20,
      apart: 0.25,
      top: 0.6,
    },
  };
}

/** How lines are fingered here. */
export const PATH_WEIGHTS = weightsOf(FINGER_POINTS);

/** The same for a line of single keys. */
export const LINE_FINGERING: FingeringOptions = { costs: PATH_WEIGHTS.costs };
