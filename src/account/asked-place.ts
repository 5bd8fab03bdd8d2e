/** Whether a take stands where it was laid is asked where it is not sure. */
import type { Analysis } from "../account.ts";

/**
 * Bars less sure than this on the whole are asked about, and readings at least so likely are offered: of what is said
 * at .9 nine in ten are so. [practice]
 */
export const SURE_PLACE = 0.9;

/**
 * Of the harmony nothing is said while the bars are less sure than this: on solos by people, told their tempo or given
 * their chart alone, 26 of 39 findings about the harmony that were made below it are made by the true bars too, and all
 * nine that were made above it (`npm run report -- doubted-bars`).
 */
const LEAST_PLACE = 0.8;

type Alternative = NonNullable<Analysis["alignment"]["alternatives"]>[number];

/**
 * Whether the place is asked about: not where it is sure, notated, or somebody has said of each bar where it sounds. A
 * tempo that was told, or one pin, tells neither where bar 1 falls nor that all others lie right: what is not sure
 * after it is asked again. A bar that seems to be left out or put in is asked about until bars are pinned.
 */
export function placeIsAsked(analysis: Analysis): boolean {
  const { method, tempo, anchors, confidence, alternatives = [], irregular = [] } = analysis.alignment;
  if (method === "notated" || tempo === null || isVouchedFor(analysis)) return false;
  if (confidence < SURE_PLACE || alternatives.some(isLikely)) return true;
  return irregular.length > 0 && anchors.length === 0;
}

/** Whether the bars are so unsure, with nobody vouching for them, that nothing can be said of notes against chords. */
export function placeIsDoubted(analysis: Pick<Analysis, "alignment" | "chart">): boolean {
  return analysis.alignment.confidence < LEAST_PLACE && !isVouchedFor(analysis);
}

/**
 * Whether nothing can be said of time and feel: as above, but over a click, where the beat is known and only the bars
 * are not. Of four drifts that were told of lines below it, the true beats had one.
 */
export function beatIsDoubted(analysis: Pick<Analysis, "alignment" | "chart">): boolean {
  return analysis.alignment.method !== "click" && placeIsDoubted(analysis);
}

/** Whether every bar of the form has its pin. */
function isVouchedFor({ alignment, chart }: Pick<Analysis, "alignment" | "chart">): boolean {
  const bars = alignment.bars.filter(({ bar }) => bar >= 1 && bar <= chart.bars.length);
  const nameOf = ({ chorus, bar }: { readonly chorus: number; readonly bar: number }) => `${chorus}.${bar}`;
  const pinned = new Set(alignment.anchors.map(nameOf));
  return bars.length > 0 && bars.every((bar) => pinned.has(nameOf(bar)));
}

/**
 * How sure the place of a bar is, 0 to 1: its own certainty, that of the nearest bar of its chorus for a pickup or what
 * runs on after the form; null where the chorus has no bar.
 */
export function sureOfBar({ alignment }: Analysis, chorus: number, bar: number): number | null {
  let nearest: Analysis["alignment"]["bars"][number] | null = null;
  for (const one of alignment.bars) {
    if (one.chorus !== chorus) continue;
    if (nearest === null || Math.abs(one.bar - bar) < Math.abs(nearest.bar - bar)) nearest = one;
  }
  return nearest?.confidence ?? null;
}

/** Other readings that are worth a question, as they stand in the account. */
export function likelyReadings({ alignment }: Analysis): readonly Alternative[] {
  return (alignment.alternatives ?? []).filter(isLikely);
}

function isLikely({ score }: Alternative): boolean {
  return score >= 1 - SURE_PLACE;
}
