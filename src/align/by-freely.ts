/** Lays a take that both hands play freely, where nothing else hears its beat or what it hears fits the chords worse. */
import type { Chart } from "../chart/types.ts";
import { logistic } from "../statistics/logistic.ts";
import { positionAt, type Take, type TimeMap } from "../take/index.ts";
import type { FreeTables } from "./free/free-model.ts";
import { FREE_TABLES } from "./free/free-tables.ts";
import { chordFit, type FreeReading, freeMap, layFreely } from "./free/lay-freely.ts";
import type { AlignmentMethod, AlignOptions, NoteHand } from "./types.ts";

export interface FreelyLaid {
  readonly method: "tracked";
  readonly map: TimeMap;
  readonly bars: null;
  readonly confidence: (bar: number) => number;
  readonly warnings: readonly [];
}

/** What the take was taken for otherwise. */
export interface LaidOtherwise {
  readonly method: AlignmentMethod;
  readonly map: TimeMap;
}

/**
 * Notes from which on a beat as free as this is told from none (a simulated rubato of 160 notes seemed to have one), and
 * the share of notes that either hand must have.
 */
const LEAST_NOTES = 200;
const EITHER_HAND = 0.15;
/**
 * A beat is believed in where what each is worth (nats), less so many times its unrest (log), is more than this.
 * Performances of people have -.45 to 2.8 (one of 21 has -1.3), simulated rubato -1.9 to -.55 (one of 12 has .3).
 */
const BY_UNREST = 12;
const BELIEVED = -0.5;
/** Nats a stroke by which the chords must fit better than those of a beat that was heard otherwise. */
const FITS_BETTER = 0.1;

/**
 * How sure a bar is by what each beat is worth and how uneven they are: a logistic rule, fitted on performances of people
 * that were read by tables of other composers. Of bars of the other half said to be .87 to .92 sure .89 to 1 are right
 * within half a beat, of those said to be .6 about .5.
 */
const SURE = { base: 0.756, worth: 0.784, mostWorth: 4, unrest: -9.86, most: 0.95 } as const;

/** @returns null where the other reading is to be kept */
export function byFreely(
  take: Take,
  chart: Chart,
  hands: readonly NoteHand[],
  options: AlignOptions,
  other: LaidOtherwise,
  tables: FreeTables = FREE_TABLES,
): FreelyLaid | null {
  if (options.tempo !== null || options.anchors.length > 0 || !twoHanded(take, hands)) return null;
  const reading = layFreely(take.notes, chart, tables);
  if (reading === null) return null;
  const map = freeMap(reading);
  const fitOf = (one: TimeMap) => chordFit(reading, (seconds) => positionAt(one, seconds));
  const better =
    other.method === "rubato"
      ? reading.worth - BY_UNREST * reading.unrest > BELIEVED
      : fitOf(map) > fitOf(other.map) + FITS_BETTER;
  if (!better) return null;
  return { method: "tracked", map, bars: null, confidence: () => surenessOf(reading), warnings: [] };
}

/** One player's two hands: a line and its company on parts of their own are what the lattice was measured with. */
function twoHanded({ notes }: Take, hands: readonly NoteHand[]): boolean {
  const line = hands.filter(({ solo }) => solo).length / hands.length;
  if (hands.length < LEAST_NOTES || line < EITHER_HAND || line > 1 - EITHER_HAND) return false;
  const parts = new Set(notes.flatMap(({ part }, i) => (hands[i]!.solo ? [part] : [])));
  return notes.some(({ part }, i) => !hands[i]!.solo && parts.has(part));
}

/** How sure the bars are: some takes are laid well from end to end, and others lose their place for good. */
function surenessOf({ worth, unrest }: FreeReading): number {
  const odds = SURE.base + SURE.worth * Math.min(SURE.mostWorth, worth) + SURE.unrest * unrest;
  return Math.min(SURE.most, logistic(odds));
}
