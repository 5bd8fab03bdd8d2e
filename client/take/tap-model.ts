/** Tapping the beat: where the first tap stands, the taps so far, and what they make of the chart. */

import type { Analysis } from "../../src/account.ts";
import { anchorsOfTaps, mergeAnchors, type TappedBeat, type TapStep } from "../../src/align/taps.ts";
import { capital, count } from "../../src/words/index.ts";
import type { AccountIndex } from "../shell/account-index.ts";
import type { Selection } from "../shell/selection.ts";

export type Anchors = Analysis["alignment"]["anchors"];

export interface TapState {
  /** Chart position of the first tap; the beat in the meter's own unit. */
  readonly first: { readonly chorus: number; readonly bar: number; readonly beat: number };
  readonly step: TapStep;
  /** 1 as it was played. */
  readonly speed: number;
  /** Seconds of the take. */
  readonly taps: readonly number[];
  readonly playing: "silent" | "loading" | "sounding";
  /** Why the take could not be played; null while nothing is wrong. */
  readonly trouble: string | null;
}

export const NOT_TAPPED: TapState = {
  first: { chorus: 1, bar: 1, beat: 1 },
  step: "beat",
  speed: 1,
  taps: [],
  playing: "silent",
  trouble: null,
};

export const STEPS: readonly (readonly [TapStep, string])[] = [
  ["beat", "every beat"],
  ["second beat", "every second beat"],
  ["bar", "every bar"],
];

/** Slower, the beat of a fast take is easier to hit. */
export const SPEEDS: readonly number[] = [1, 0.8, 0.6];

/** Seconds of lead before the bar that is to be tapped from. */
const LEAD = 2;

/** Taps of fewer than this make no beat yet, and nothing is said against them. */
const FEWEST = 3;

export function tapFrom(state: TapState, first: Partial<TapState["first"]>): TapState {
  return { ...state, first: { ...state.first, ...first } };
}

/** A bar that is selected is where the first tap is expected, unless there are taps already. */
export function tapFromBar(state: TapState, selection: Selection, chartBars: number): TapState {
  if (state.taps.length > 0 || selection.kind !== "bar") return state;
  const { chorus, bar } = selection;
  if (chorus === null || bar < 1) return state;
  return { ...state, first: { chorus, bar: Math.min(chartBars, bar), beat: 1 } };
}

export function tapEvery(state: TapState, step: TapStep): TapState {
  return { ...state, step };
}

export function playAt(state: TapState, speed: number): TapState {
  return { ...state, speed };
}

/** The take is about to be played: what was tapped before is put away. */
export function startPlaying(state: TapState): TapState {
  return { ...state, taps: [], playing: "loading", trouble: null };
}

export function sounding(state: TapState, sounds: boolean): TapState {
  return { ...state, playing: sounds ? "sounding" : "silent" };
}

export function failed(state: TapState, error: unknown): TapState {
  const trouble = error instanceof Error ? error.message : String(error);
  return { ...state, playing: "silent", trouble };
}

/** @param seconds of the take, kept to a tenth of a millisecond */
export function tapped(state: TapState, seconds: number): TapState {
  return { ...state, taps: [...state.taps, Number(Math.max(0, seconds).toFixed(4))] };
}

export function takeBackTap(state: TapState): TapState {
  return { ...state, taps: state.taps.slice(0, -1) };
}

export function throwAway(state: TapState): TapState {
  return { ...state, taps: [] };
}

/** Whether there is something to place the chart by, or to take back. */
export function isToDecide({ taps, playing }: TapState): boolean {
  return taps.length > 0 && playing !== "sounding";
}

/** What the taps make of the chart, or in words why they make nothing. */
export function readTaps({ taps, first, step }: TapState, chart: Analysis["chart"]): TappedBeat | string {
  try {
    return anchorsOfTaps(taps, first, step, chart);
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
}

/** "Nine taps, about 100 a minute, one left out" */
export function tapWords(state: TapState, chart: Analysis["chart"]): string {
  const { taps, trouble } = state;
  if (trouble !== null) return trouble;
  if (taps.length === 0) return "";
  const found = readTaps(state, chart);
  const taken = capital(count(taps.length, "tap"));
  if (typeof found === "string") return taps.length < FEWEST ? taken : `${taken}. ${found}.`;
  const strays = found.steps.filter((one) => one === null).length;
  const pace = `about ${Math.round(60 / found.period)} a minute`;
  return `${taken}, ${pace}${strays > 0 ? `, ${strays} left out` : ""}`;
}

/** The take's moments with those of the taps, and what is said when they are kept; null while the taps make no beat. */
export function placement(
  state: TapState,
  { chart, alignment }: Pick<Analysis, "chart" | "alignment">,
): { readonly anchors: Anchors; readonly words: string } | null {
  const found = readTaps(state, chart);
  if (typeof found === "string") return null;
  return {
    anchors: mergeAnchors(alignment.anchors, found.anchors, chart),
    words: `The chart goes through your taps: ${count(found.anchors.length, "moment")} pinned.`,
  };
}

/** Seconds from which the take plays: a little before the selected bar, else its beginning. */
export function playFrom(index: Pick<AccountIndex, "bar">, selection: Selection): number {
  if (selection.kind !== "bar" || selection.chorus === null) return 0;
  const time = index.bar(selection.chorus, selection.bar);
  return time === null ? 0 : Math.max(0, time.start - LEAD);
}
