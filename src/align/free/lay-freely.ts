/** A take that both hands play freely, laid on its chart: read at several usual tempos, the best of which is kept. */
import { median } from "d3-array";
import type { Chart } from "../../chart/types.ts";
import { mod } from "../../pitch/index.ts";
import type { Note, TimeMap } from "../../take/index.ts";
import { type FreePassed, freeBeats } from "./free-beats.ts";
import { type FreeForm, freeForm } from "./free-form.ts";
import { FREE, type FreeTables } from "./free-model.ts";
import { type FreeMoments, freeMoments } from "./free-moments.ts";
import { ownTables } from "./free-own.ts";
import { likelyBeats } from "./free-posterior.ts";
import { likelyRow } from "./free-row.ts";
import { type FreePin, FreeSteps } from "./free-steps.ts";
import { freeStrokes } from "./free-strokes.ts";

export interface FreeReading {
  /** Seconds of each beat; beat of the form of the first. */
  readonly beats: Float64Array;
  readonly firstBeat: number;
  /** How likely each beat is met, 0 to 1. */
  readonly shares: Float64Array;
  readonly form: FreeForm;
  readonly moments: FreeMoments;
  /** Nats for each beat. */
  readonly worth: number;
  /** Change of a beat's length against the one before it (log), than which four beats in five change less. */
  readonly unrest: number;
}

/** Step between usual tempos that are tried (log), and seconds of the shortest and longest beat of them. */
const STEP = 0.35;
const FASTEST = 0.18;
const SLOWEST = 3.2;
/** How often a take is read once more at the tempo that its best reading has: the tempos that are tried lie far apart. */
const TURNS = 3;
/** Beats of the shortest take of which a tempo can be told. */
const FEWEST = 4;

/** What is known of a take: places that are pinned, rising, and the seconds of a usual beat; null where nobody told it. */
export interface FreelyTold {
  readonly pins: readonly FreePin[];
  readonly usual: number | null;
}

const NOTHING: FreelyTold = { pins: [], usual: null };

/**
 * @param tables of all takes
 * @returns null for a take of which no row of beats can be made
 */
export function layFreely(
  notes: readonly Note[],
  chart: Chart,
  tables: FreeTables,
  { pins, usual }: FreelyTold = NOTHING,
): FreeReading | null {
  const form = freeForm(chart);
  const strokes = freeStrokes(notes);
  const moments = freeMoments(strokes, form, tables);
  let best: FreePassed | null = null;
  let bestScore = Number.NEGATIVE_INFINITY;
  const rival = new Float64Array(moments.count).fill(Number.NEGATIVE_INFINITY);
  for (const seconds of usual === null ? usualLengths(strokes.step) : [usual]) {
    const found = freeBeats(new FreeSteps(moments, form, tables, seconds, pins), rival);
    if (found === null || found.beats.length < FEWEST) continue;
    const score = found.score + usualOdds(seconds);
    if (score > bestScore) [best, bestScore] = [found, score];
  }
  if (best === null) return null;
  for (let turn = 0; usual === null && turn < TURNS; turn++) {
    const seconds = usualBeat(best);
    const found = freeBeats(new FreeSteps(moments, form, tables, seconds, pins), rival);
    if (found === null || found.beats.length < FEWEST) break;
    const score = found.score + usualOdds(seconds);
    if (score <= bestScore) break;
    [best, bestScore] = [found, score];
  }
  return readAgain(best, bestScore, tables, pins);
}

/** Nats of a usual length of beats (seconds), for the whole take. */
function usualOdds(seconds: number): number {
  const away = Math.log(seconds / FREE.usual) / FREE.usualWidth;
  return (-FREE.usualPower * away * away) / 2;
}

/** Reads a take once more by its own tables, and gathers what its readings agree on. */
function readAgain(
  first: FreePassed,
  score: number,
  tables: FreeTables,
  pins: readonly FreePin[],
): FreeReading {
  const { moments, form, middle } = first.steps;
  const own = ownTables(tables, moments.strokes, first.beats);
  const nothing = new Float64Array(moments.count).fill(Number.NEGATIVE_INFINITY);
  const again = freeBeats(new FreeSteps(moments, form, own, Math.exp(middle), pins), nothing) ?? first;
  const last = likelyRow(again, likelyBeats(again));
  const { beats, firstBeat, shares } =
    last !== null && last.beats.length >= FEWEST
      ? last
      : { ...again, shares: new Float64Array(again.beats.length) };
  return {
    beats,
    firstBeat,
    shares,
    form,
    moments,
    worth: score / first.beats.length,
    unrest: unrestOf(first.beats),
  };
}

/**
 * Seconds of a beat, the most usual first. They are told by the take's own steps, so that a take played faster is tried
 * at faster tempos.
 */
function usualLengths(step: number): number[] {
  const middle = Math.log(step);
  const lengths: number[] = [];
  for (let n = Math.ceil((Math.log(FASTEST) - middle) / STEP); middle + n * STEP < Math.log(SLOWEST); n++) {
    lengths.push(Math.exp(middle + n * STEP));
  }
  const away = (seconds: number) => Math.abs(Math.log(seconds / FREE.usual));
  return lengths.sort((a, b) => away(a) - away(b));
}

/** Seconds of a beat, the middle one. */
export function usualBeat({ beats }: Pick<FreeReading, "beats">): number {
  return median(Array.from(beats.subarray(1), (seconds, k) => seconds - beats[k]!)) ?? FREE.usual;
}

function unrestOf(beats: Float64Array): number {
  const changes: number[] = [];
  for (let k = 2; k < beats.length; k++) {
    changes.push(Math.abs(Math.log((beats[k]! - beats[k - 1]!) / (beats[k - 1]! - beats[k - 2]!))));
  }
  changes.sort((a, b) => a - b);
  return changes[Math.floor(0.8 * changes.length)] ?? 0;
}

/** Number of the first beat from the form's first: takes that begin over its last bar are led in. */
export function firstOf({ firstBeat, form }: Pick<FreeReading, "firstBeat" | "form">): number {
  return firstBeat >= form.count - form.bar && firstBeat > 0 && form.count > form.bar
    ? firstBeat - form.count
    : firstBeat;
}

/** The beats as a map. */
export function freeMap(reading: FreeReading): TimeMap {
  const first = firstOf(reading);
  return Array.from(reading.beats, (seconds, k) => ({
    seconds,
    position: (first + k) * reading.form.quarters,
  }));
}

/** Beats before its place at which a stroke stands for it. */
const EARLY = 0.1;

/** Nats a stroke by which what is played fits the chords on which a map has it. */
export function chordFit(
  { moments, form }: Pick<FreeReading, "moments" | "form">,
  positionAt: (seconds: number) => number,
): number {
  const { strokes, chords, width } = moments;
  let sum = 0;
  for (let e = 0; e < strokes.count; e++) {
    const beat = Math.floor(positionAt(strokes.time[e]!) / form.quarters + EARLY);
    const chord = form.chordAt[mod(beat, form.count)]!;
    if (chord >= 0) sum += chords[(e + 1) * width + chord]! - chords[e * width + chord]!;
  }
  return sum / strokes.count;
}
