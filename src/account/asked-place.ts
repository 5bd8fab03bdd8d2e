/** Whether a take stands where it was laid is asked where it is not sure. */
import type { Analysis } from "../account.ts";

/**
 * Bars less sure than this on the whole are asked about, and readings at least so likely are offered: of what is said
 * at .9 nine in ten are so. [practice]
 */
export const SURE_PLACE = 0.9;

type Alternative = NonNullable<Analysis["alignment"]["alternatives"]>[number];

/**
 * Whether the place is asked about: not where it is sure, notated, or somebody has told it already. A bar that seems to
 * be left out or put in is always asked about.
 */
export function placeIsAsked({ alignment, options }: Analysis): boolean {
  const { method, tempo, anchors, confidence, alternatives = [], irregular = [] } = alignment;
  if (method === "notated" || tempo === null || anchors.length > 0 || options.tempo !== null) return false;
  return confidence < SURE_PLACE || alternatives.some(isLikely) || irregular.length > 0;
}

/** Other readings that are worth a question, as they stand in the account. */
export function likelyReadings({ alignment }: Analysis): readonly Alternative[] {
  return (alignment.alternatives ?? []).filter(isLikely);
}

function isLikely({ score }: Alternative): boolean {
  return score >= 1 - SURE_PLACE;
}
