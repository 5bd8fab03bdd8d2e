/** Lays a take that both hands play freely, where nothing else hears its beat or what it hears fits the chords worse. */
import { mean } from "d3-array";
import type { Chart } from "../chart/types.ts";
import { positionAt, type Take, type TimeMap } from "../take/index.ts";
import { anchorPosition } from "./anchors.ts";
import { quartersOfBeat } from "./free/free-form.ts";
import type { FreeTables } from "./free/free-model.ts";
import { freeSureness } from "./free/free-sureness.ts";
import { FREE_TABLES } from "./free/free-tables.ts";
import {
  chordFit,
  type FreelyTold,
  type FreeReading,
  freeMap,
  layFreely,
  usualBeat,
} from "./free/lay-freely.ts";
import { otherReadings } from "./free/other-readings.ts";
import { freeAlternatives } from "./free-alternatives.ts";
import type { Alignment, AlignmentMethod, AlignOptions, NoteHand } from "./types.ts";

export interface FreelyLaid {
  readonly method: "tracked";
  readonly map: TimeMap;
  readonly bars: null;
  readonly confidence: (bar: number) => number;
  readonly warnings: readonly [];
  readonly alternatives: NonNullable<Alignment["alternatives"]>;
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
 * Where chords are heard, a beat is believed in where what each is worth (nats), less so many times its unrest (log) and
 * so many times the nats a stroke by which harmony alone fits the chords better, is more than this. Performances of people
 * have -.5 to 3.7 (of 21 one has -1.5, and one whose bars change their meter -2), of 21 simulated rubati one -.2 and all
 * others -.8 or less.
 */
const BY_UNREST = 12;
const BY_HARMONY = 5;
const BELIEVED = -0.65;
/** Where none are, where so many of its beats are likely met: of keys drawn blindly .43 are at most, mostly a third. */
const MET = 0.45;
/** Nats a stroke by which the chords must fit better than those of a beat that was heard otherwise. */
const FITS_BETTER = 0.1;
/** A told tempo is that of the take as long as its usual beat is not farther off than this: less than two beats for three. */
const TOLD_WITHIN = 1.25;

/** @returns null where the other reading is to be kept */
export function byFreely(
  take: Take,
  chart: Chart,
  hands: readonly NoteHand[],
  options: AlignOptions,
  other: LaidOtherwise,
  tables: FreeTables = FREE_TABLES,
): FreelyLaid | null {
  if (!twoHanded(take, hands)) return null;
  const told = toldOf(options, chart);
  const reading = layFreely(take.notes, chart, tables, told);
  if (reading === null || !isAsTold(reading, told)) return null;
  const map = fromPin(freeMap(reading), told, reading);
  const fitOf = (one: TimeMap) => chordFit(reading, (seconds) => positionAt(one, seconds));
  const fits = { here: fitOf(map), there: fitOf(other.map) };
  if (!isBetter(reading, fits, other, told)) return null;
  const { own, others } = otherReadings(reading, told);
  const sure = freeSureness(reading, chordsHeard(fits));
  return {
    method: "tracked",
    map,
    bars: null,
    confidence: (bar) => own * sure(bar),
    warnings: [],
    alternatives: freeAlternatives(reading, others, take, chart),
  };
}

/**
 * Of a free take of two hands something else hears some beat, and without chords nothing says which: of ten performances
 * of people it was heard at twice the tempo in five and farther off in four, and .03 of the bars were right.
 */
const GUESSED = 0.1;

/** How sure the bars of a take of two hands are that is not read freely: where no chords are written, hardly. */
export function guessed({ bars }: Chart, sure: (bar: number) => number): (bar: number) => number {
  if (bars.some(({ chords }) => chords.some(({ chord }) => chord !== null))) return sure;
  return (bar) => Math.min(GUESSED, sure(bar));
}

function toldOf({ tempo, anchors }: AlignOptions, chart: Chart): FreelyTold {
  const quarters = quartersOfBeat(chart);
  const pins = anchors.map((anchor) => ({
    seconds: anchor.seconds,
    beat: anchorPosition(anchor, chart) / quarters,
  }));
  if (tempo !== null) return { pins, usual: (60 * quarters) / tempo };
  // Two pins tell how many beats lie between them.
  const [first, last] = [pins[0], pins.at(-1)];
  const beats = first === undefined || last === undefined ? 0 : last.beat - first.beat;
  return { pins, usual: beats > 0 ? (last!.seconds - first!.seconds) / beats : null };
}

function isAsTold(reading: FreeReading, { usual }: FreelyTold): boolean {
  if (usual === null) return true;
  const ratio = usualBeat(reading) / usual;
  return Math.max(ratio, 1 / ratio) <= TOLD_WITHIN;
}

/** Pins tell the chorus too, which a reading of the form as a ring does not know; and they are right against any chords. */
function fromPin(map: TimeMap, { pins }: FreelyTold, { form: { quarters } }: FreeReading): TimeMap {
  const [pin] = pins;
  if (pin === undefined) return map;
  const shift = Math.round(pin.beat - positionAt(map, pin.seconds) / quarters) * quarters;
  return map.map(({ seconds, position }) => ({ seconds, position: position + shift }));
}

/** Nats a stroke by which what is played fits the chords as it is read here, and as it was laid otherwise. */
interface Fits {
  readonly here: number;
  readonly there: number;
}

/** Chords that fit no better than keys drawn blindly are not heard; there may be none. */
const chordsHeard = ({ here, there }: Fits) => Math.max(here, there) > 0;

function isBetter(reading: FreeReading, fits: Fits, other: LaidOtherwise, { pins }: FreelyTold): boolean {
  if (other.method !== "rubato") return fits.here > fits.there + FITS_BETTER;
  // Pins are right against any chords.
  const behind = pins.length > 0 ? 0 : Math.max(0, fits.there - fits.here);
  if (reading.worth - BY_UNREST * reading.unrest - BY_HARMONY * behind > BELIEVED) return true;
  // Chords that do not fit would give readings of no beat at all something to agree on.
  return reading.form.chords.length === 0 && mean(reading.shares)! > MET;
}

/** One player's two hands: a line and its company on parts of their own are what the lattice was measured with. */
export function twoHanded({ notes }: Take, hands: readonly NoteHand[]): boolean {
  const line = hands.filter(({ solo }) => solo).length / hands.length;
  if (hands.length < LEAST_NOTES || line < EITHER_HAND || line > 1 - EITHER_HAND) return false;
  const parts = new Set(notes.flatMap(({ part }, i) => (hands[i]!.solo ? [part] : [])));
  return notes.some(({ part }, i) => !hands[i]!.solo && parts.has(part));
}
