/** What the bar pointer is asked, and what it believes of time: prices and spreads in one place. */
import { mod } from "../pitch/index.ts";
import { CELLS, type Metre, PLACE } from "./metre.ts";

export interface TrackerStart {
  /** Places on the chart, in cells, of the first event, and what each costs (nats). */
  readonly places: readonly { readonly cell: number; readonly cost: number }[];
  /** Seconds of a quarter note, and what each costs (nats). */
  readonly periods: readonly { readonly seconds: number; readonly cost: number }[];
  /** Spread of each starting period as a share of it. */
  readonly periodSpread: number;
}

/** How freely time may move; shares of a quarter note unless said otherwise. */
export interface TrackerFreedom {
  /** Standard deviation of the clock for each quarter note. */
  readonly clock: number;
  /** Change of tempo for each quarter note. */
  readonly tempo: number;
  /** Whether pauses and lost or added beats may happen. */
  readonly slips: boolean;
}

/** A moment at which the place on the chart is known. */
export interface Pin {
  readonly seconds: number;
  /** In cells. */
  readonly cell: number;
}

export interface TrackerOptions {
  readonly start: TrackerStart;
  readonly freedom: TrackerFreedom;
  /** Pins in order of time; hypotheses that do not go through them fall behind. */
  readonly pins: readonly Pin[];
  /** Hypotheses that are followed on, once the take is under way. */
  readonly beam: number;
}

/** Nats; each is the price of one happening [practice; set on simulated takes]. */
export const PRICE = {
  /** An event on no place of the metre: a wrong note, a grace. */
  skip: -5.5,
  slip: -9.5,
  barSlip: -13,
  pause: -8,
  /** Two events on one place. */
  twice: -3.5,
} as const;

/** Standard deviation of an event around its place, seconds: the comping hand and the line. */
export const COMPING_SPREAD = 0.013;
export const LINE_SPREAD = 0.024;
/** Weight of pitch against time, since the notes of a passage tell less together than one by one. */
export const HARMONY = 0.95;

/** Seconds of the short note of a swung pair, which gets hardly shorter at any tempo (Friberg & Sundstrom 2002). */
export const SHORTEST = 0.08;
/** Quarter notes a minute beyond which nobody is followed. */
export const SLOWEST = 36;
export const FASTEST = 340;

/** Where a place falls in time, in quarter notes: off-beats where this hypothesis swings them. */
export function playedPlace(cell: number, metre: Metre, swing: number): number {
  if (metre.place[mod(cell, metre.bar)] !== PLACE.offBeat) return cell / CELLS;
  return (cell - CELLS / 2) / CELLS + swing;
}
