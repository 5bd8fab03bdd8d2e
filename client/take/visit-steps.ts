/** The ways back from what was changed in this visit, the last one first to be undone. */
import type { TakeChange } from "../../server/contract/takes.ts";

export interface VisitStep {
  /** What was done. */
  readonly words: string;
  /** What is sent to have it as it was. */
  readonly way: TakeChange;
}

export type VisitSteps = readonly VisitStep[];

export const NO_STEPS: VisitSteps = [];

/** A change without a way back leaves the earlier steps: they still lead to how the take was before them. */
export const afterChange = (steps: VisitSteps, words: string, way: TakeChange | undefined): VisitSteps =>
  way === undefined ? steps : [...steps, { words, way }];

export const afterUndo = (steps: VisitSteps): VisitSteps => steps.slice(0, -1);
