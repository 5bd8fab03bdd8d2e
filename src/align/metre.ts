/**
 * The metre as the tracker hears it: places of the bar on which notes begin, and how often they do. Positions are
 * whole numbers of cells, twelve to a quarter note, so that eighths, triplets and sixteenths all have one.
 * The shares are common practice [practice]: beats before off-beats, the bar's first beat before the others.
 */
import { quartersPerBar } from "../chart/meter.ts";
import type { Chart } from "../chart/types.ts";

/** Cells in a quarter note. */
export const CELLS = 12;

/** Kinds of places; 0 is a cell where nothing begins. */
export const PLACE = { none: 0, beat: 1, offBeat: 2, eighth: 3, triplet: 4, sixteenth: 5 } as const;

interface Shares {
  /** How often an event falls on such a place. */
  readonly struck: number;
  /** How often the comping hand is in it, where the take has one. */
  readonly comping: number;
}

const FIRST: Shares = { struck: 0.8, comping: 0.8 };
const STRONG: Shares = { struck: 0.66, comping: 0.55 };
const WEAK: Shares = { struck: 0.62, comping: 0.5 };
const OFF: Shares = { struck: 0.4, comping: 0.2 };
/** In compound meters the last eighth of the beat leads on, the middle one is often left out: long, short. */
const MIDDLE: Shares = { struck: 0.42, comping: 0.2 };
const LEADING: Shares = { struck: 0.52, comping: 0.2 };
const TRIPLET: Shares = { struck: 0.04, comping: 0.04 };
const SIXTEENTH: Shares = { struck: 0.05, comping: 0.04 };

export interface Metre {
  /** Cells in a bar, and in the beat that a foot would tap. */
  readonly bar: number;
  readonly beat: number;
  readonly compound: boolean;
  /** Kind of place for each cell of the bar. */
  readonly place: Uint8Array;
  /** Nats for an event on each cell, by who strikes: `[who * bar + cell]`, 0 solo only, 1 comping. */
  readonly struck: Float64Array;
  /** Nats for the silence of all cells before each cell; one longer than the bar. */
  readonly silent: Float64Array;
}

/** Cells in the beat that a foot would tap: a quarter note, a dotted quarter in 6/8 and 12/8, an eighth in 5/8 and 7/8. */
export function beatCells(chart: Pick<Chart, "meter">): number {
  if (chart.meter.unit < 8) return CELLS;
  return chart.meter.beats % 3 === 0 ? (CELLS * 3) / 2 : CELLS / 2;
}

/** Tables for a chart's meter. `withComping` tells whether the take has a comping hand. */
export function metreOf(chart: Chart, withComping: boolean): Metre {
  const bar = Math.round(quartersPerBar(chart.meter) * CELLS);
  const beat = beatCells(chart);
  const compound = beat === 18;
  const place = new Uint8Array(bar);
  const struck = new Float64Array(2 * bar);
  const silent = new Float64Array(bar + 1);
  for (let cell = 0; cell < bar; cell++) {
    place[cell] = placeOfCell(cell, beat);
    const shares = sharesOf(cell, beat, bar);
    if (shares === null) {
      struck[cell] = struck[bar + cell] = Number.NEGATIVE_INFINITY;
      silent[cell + 1] = silent[cell]!;
      continue;
    }
    const comping = withComping ? shares.comping : 0.5;
    struck[cell] = Math.log(shares.struck * (1 - comping));
    struck[bar + cell] = Math.log(shares.struck * comping);
    silent[cell + 1] = silent[cell]! + Math.log(1 - shares.struck);
  }
  return { bar, beat, compound, place, struck, silent };
}

function placeOfCell(cell: number, beat: number): number {
  const within = cell % beat;
  if (within === 0) return PLACE.beat;
  if (beat === 18) return within % 6 === 0 ? PLACE.eighth : within % 3 === 0 ? PLACE.sixteenth : PLACE.none;
  if (beat === 6) return within === 3 ? PLACE.sixteenth : PLACE.none;
  if (within === 6) return PLACE.offBeat;
  if (within % 4 === 0) return PLACE.triplet;
  return within % 3 === 0 ? PLACE.sixteenth : PLACE.none;
}

function sharesOf(cell: number, beat: number, bar: number): Shares | null {
  switch (placeOfCell(cell, beat)) {
    case PLACE.beat:
      return cell === 0 ? FIRST : cell * 2 === bar ? STRONG : WEAK;
    case PLACE.offBeat:
      return OFF;
    case PLACE.eighth:
      return cell % beat === CELLS / 2 ? MIDDLE : LEADING;
    case PLACE.triplet:
      return TRIPLET;
    case PLACE.sixteenth:
      return SIXTEENTH;
    default:
      return null;
  }
}

/** Nats for no event on the cells strictly between two positions in cells; 0 when none lie between. */
export function silence(metre: Metre, from: number, to: number): number {
  return to <= from + 1 ? 0 : silenceBefore(metre, to) - silenceBefore(metre, from + 1);
}

function silenceBefore(metre: Metre, cell: number): number {
  const bars = Math.floor(cell / metre.bar);
  return bars * metre.silent[metre.bar]! + metre.silent[cell - bars * metre.bar]!;
}
