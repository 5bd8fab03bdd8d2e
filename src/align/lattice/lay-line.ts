/** A take laid on its chart by the lattice: on known beats, at a told tempo, or at the tempo that explains it best. */
import type { Chart } from "../../chart/types.ts";
import { mod } from "../../pitch/index.ts";
import type { Note } from "../../take/index.ts";
import { type Evidence, type EvidenceWeights, evidenceOf } from "./evidence.ts";
import type { FormBeats } from "./form-beats.ts";
import { freeGrid, knownGrid, UNREST } from "./grids.ts";
import { evidenceOn, layOnLattice } from "./lattice.ts";
import type { Laid, LatticePin, LatticeStart } from "./lattice-types.ts";
import type { Strokes } from "./line-features.ts";
import { EARLY, type LineTables } from "./line-model.ts";
import { LINE_TABLES } from "./line-tables.ts";
import { refineBeats } from "./refine-beats.ts";
import { settleTurn } from "./settle-turn.ts";
import { startOf } from "./start-of.ts";

/** A way to lay a take. */
export interface Reading {
  /** Seconds at which each beat begins, and the number of the first: 0 is the first beat of the first chorus. */
  readonly beats: Float64Array;
  readonly firstBeat: number;
  /** Beats (of the meter's foot) a minute. */
  readonly pace: number;
  /** Share of all readings that agree on each stroke's beat of the form, the doubt about the tempo taken in. */
  readonly sure: Float64Array;
  /** Log evidence of the take under this way to lay it. */
  readonly evidence: number;
  /** Share of this reading among all that were weighed, 0 to 1. */
  readonly share: number;
}

/** Powers of the evidence, fitted on half of the counted solos by how well they tell the place in the form (see the reports). */
export const LINE_POWERS: EvidenceWeights = {
  chord: [0.16, 0.4, 0.85],
  come: 0.6,
  held: 0.4,
  within: 0.25,
  rhythm: 0.2,
  comping: 0.85,
  struck: 1,
  moments: { rhythm: 0.7, struck: 0.9 },
};

/** @param tables of lines; a report lays a take by those of others */
export function lineEvidence(
  notes: readonly Note[],
  strokes: Strokes,
  chart: Chart,
  tables: LineTables = LINE_TABLES,
): Evidence {
  return evidenceOf(notes, strokes, chart, tables, LINE_POWERS);
}

/** Share of gaps between strokes in which a beat stops and goes on anew. [practice] */
const PAUSES = 1e-3;

function nearIn(a: number, b: number): boolean {
  return Math.max(a / b, b / a) < ONE_TEMPO;
}

/** Log share of a tempo of the beat before a take is heard. */
export function usualPace(pace: number): number {
  return -((Math.log(pace / USUAL) / SPREAD) ** 2) / 2;
}

interface Tried {
  readonly pace: number;
  readonly weight: number;
}

/** The best of each group of neighbouring tempos, the likeliest first, as far as the whole take need be asked. */
function distinct(tried: readonly Tried[]): Tried[] {
  const result: Tried[] = [];
  for (const one of [...tried].sort((a, b) => b.weight - a.weight)) {
    if (result.length === WEIGHED || (result[0] && one.weight < result[0].weight - WORTH_ASKING)) break;
    if (!result.some(({ pace }) => nearIn(pace, one.pace))) result.push(one);
  }
  return result;
}

/**
 * Share of the form at its end over which takes are led in; who begins there and goes on into the form plays an
 * introduction [practice: the last four bars of sixteen, the last eight of thirty-two].
 */
const LED_IN_OVER = 1 / 4;

/** Number of the first beat: over the form's last bars a take that goes on is led in, and its first chorus comes next. */
function ledIn(firstBeat: number, beats: number, { count, lead }: FormBeats): number {
  const left = count - firstBeat;
  return left > 0 && left <= Math.min(lead, LED_IN_OVER * count) && beats > 2 * left ? -left : firstBeat;
}

function readingOf(laid: Laid, form: FormBeats, pins: readonly LatticePin[]): Reading {
  let firstBeat = ledIn(laid.firstBeat, laid.beats.length - 1, form);
  const [pin] = pins;
  if (pin !== undefined) {
    // The pin tells the chorus.
    let k = 0;
    while (k + 1 < laid.beats.length && laid.beats[k + 1]! <= pin.seconds) k++;
    firstBeat += Math.round((pin.beat - k - firstBeat) / form.count) * form.count;
  }
  return {
    beats: laid.beats,
    firstBeat,
    pace: paceOf(laid.beats),
    sure: laid.sure,
    evidence: laid.evidence,
    share: 1,
  };
}

/**
 * Readings of one take weighed against each other, the likeliest first; the doubt is taken into their sureness.
 *
 * @param expected log share of each reading before the take is heard
 */
function weighReadings(readings: readonly Reading[], expected: readonly number[]): Reading[] {
  const weights = readings.map(({ evidence }, k) => evidence + expected[k]!);
  const top = Math.max(...weights);
  const sum = weights.reduce((all, weight) => all + Math.exp(weight - top), 0);
  return readings
    .map((reading, k) => {
      const share = Math.exp(weights[k]! - top) / sum;
      return { ...reading, share, sure: reading.sure.map((sure) => sure * share) };
    })
    .sort((a, b) => b.share - a.share);
}

/** Where the file begins its bars, and the share of takes whose form begins them there as well. */
export interface FileBars {
  /** Number (in the row of beats) of a beat on which the file begins a bar. */
  readonly at: number;
  readonly share: number;
}

/** Nats by which a form is less likely to begin on one beat beside the bars of its file than on one of them. */
export function besideBars({ share }: FileBars, { bar }: FormBeats): number {
  return Math.log(share) - Math.log((1 - share) / Math.max(1, bar - 1));
}

/**
 * Lays a take on known beats: only the place in the form is sought.
 *
 * @param fileBars null where the file states none that the chart could have
 */
export function layOnBeats(
  evidence: Evidence,
  times: Float64Array,
  fileBars: FileBars | null,
  pins: readonly LatticePin[] = [],
): Reading | null {
  const { form } = evidence;
  let barLines: LatticeStart["known"] = null;
  if (fileBars !== null) {
    const on = Math.log(fileBars.share);
    const off = on - besideBars(fileBars, form);
    barLines = (column, p) => (mod(p - column + fileBars.at, form.bar) === 0 ? on : off);
  }
  const [first, last] = beatsPlayed(evidence, times);
  const start = startOf(form, last + 1 - first, evidence.tables);
  if (pins.length > 0) {
    const laid = layOnLattice(evidence, knownGrid(times), {
      ...start,
      known: barLines,
      pins,
      pauses: PAUSES,
    });
    return laid === null ? null : readingOf(laid, form, pins);
  }
  const begin =
    barLines === null ? start.begin : shared(start.begin.map((log, p) => log + barLines(first, p)));
  const beats = times.subarray(first, last + 2);
  const laid = settleTurn(evidence, beats, { begin, end: start.end });
  return readingOf({ ...laid, beats }, form, []);
}

/** Log shares that sum to one: what is known of bar lines does not speak against the beats. */
function shared(logs: Float64Array): Float64Array {
  const sum = logs.reduce((all, log) => all + Math.exp(log), 0);
  return logs.map((log) => log - Math.log(sum));
}

/** Numbers of the beats in which the first and the last stroke lie. */
function beatsPlayed({ strokes }: Evidence, times: Float64Array): [number, number] {
  const beatOf = (seconds: number) => {
    let k = 0;
    while (k + 2 < times.length && times[k + 1]! - EARLY * (times[k + 1]! - times[k]!) <= seconds) k++;
    return k;
  };
  return [beatOf(strokes.time[0]!), beatOf(strokes.time[strokes.count - 1]!)];
}

/** Lays a take at a told tempo (beats a minute); between pins, which tell the mean of it alone, more freely. */
export function layAtPace(
  evidence: Evidence,
  pace: number,
  pins: readonly LatticePin[] = [],
): Reading | null {
  const laid = beatsNear(evidence, pace, pins, pins.length > 1 ? UNREST.sought : UNREST.known);
  if (laid === null) return null;
  return pins.length > 0 ? readingOf(laid, evidence.form, pins) : placed(evidence, laid);
}

/** The same beats and doubts, before their place in the form is settled. */
function beatsNear(
  evidence: Evidence,
  pace: number,
  pins: readonly LatticePin[],
  unrest: number,
): Laid | null {
  const { strokes, form } = evidence;
  const grid = freeGrid(60 / pace, strokes.time[0]!, strokes.time[strokes.count - 1]!, unrest);
  const start = startOf(form, lengthAt(pace, strokes), evidence.tables);
  const laid = layOnLattice(evidence, grid, { ...start, known: null, pins, pauses: PAUSES });
  return laid === null ? null : { ...laid, beats: refineBeats(evidence, laid.beats) };
}

/** Beats that a take is long at a pace. */
function lengthAt(pace: number, { time, count }: Strokes): number {
  return 1 + ((time[count - 1]! - time[0]!) * pace) / 60;
}

function paceOf(beats: Float64Array): number {
  const n = beats.length;
  return (60 * (n - 1)) / (beats[n - 1]! - beats[0]!);
}

/** Share of a reading that is left where weighing bar by bar finds another place of its beats. */
const OTHERWISE = 0.5;

/** The same beats where they lie best in the form as a whole. */
function placed(evidence: Evidence, laid: Laid): Reading {
  const { form } = evidence;
  const start = startOf(form, laid.beats.length - 1, evidence.tables);
  const { firstBeat, sure } = settleTurn(evidence, laid.beats, start);
  return mod(firstBeat - laid.firstBeat, form.count) === 0
    ? readingOf(laid, form, [])
    : readingOf({ ...laid, firstBeat, sure: sure.map((one) => OTHERWISE * one) }, form, []);
}

/** Step between the tempos that are tried, and how many of them are weighed over the whole take. */
const STEP = 1.06;
const WEIGHED = 3;
/** Tempos within this ratio are one: the beat's own freedom covers it. */
const ONE_TEMPO = 1.13;
/** Nats by which the beginning must speak for a tempo, against the best, for the whole take to be asked. */
const WORTH_ASKING = 12;
/** Strokes of a take by which tempos are tried, and within how many of its usual steps, so that rests do not count. */
const TRIED_STROKES = 200;
const TRIED_STEPS = 250;
/** Slowest and fastest pace of a beat that is tried. */
const PACES = { slowest: 45, fastest: 340 };
/** Usual pace of the beat and its spread (log): improvised solos of the open data. */
const USUAL = 165;
const SPREAD = 0.5;

/**
 * Lays a take whose tempo nobody told: its beginning, against the chart, names the tempos that may be, the whole take
 * decides among them.
 *
 * @returns readings, the likeliest first; none for a take that fits none
 */
export function layAtAnyPace(evidence: Evidence, pins: readonly LatticePin[] = []): Reading[] {
  const { strokes, form } = evidence;
  let count = Math.min(strokes.count, TRIED_STROKES);
  while (count > 8 && strokes.time[count - 1]! - strokes.time[0]! > TRIED_STEPS * strokes.step) count--;
  const beginning = { ...evidence, strokes: { ...strokes, count } };
  const tried: { pace: number; weight: number }[] = [];
  // Tempos are told by the take's own steps, so that a take played faster is tried at faster tempos.
  const middle = 30 / Math.max(0.02, strokes.step);
  const lowest = Math.ceil(Math.log(PACES.slowest / middle) / Math.log(STEP));
  for (let k = lowest; middle * STEP ** k < PACES.fastest; k++) {
    const pace = middle * STEP ** k;
    const grid = freeGrid(60 / pace, strokes.time[0]!, strokes.time[count - 1]!, UNREST.sought);
    const start = startOf(form, lengthAt(pace, strokes), evidence.tables);
    if (count < strokes.count) start.end.fill(0);
    const found = evidenceOn(beginning, grid, { ...start, known: null, pins, pauses: PAUSES });
    if (found !== null) tried.push({ pace, weight: found + usualPace(pace) });
  }
  const readings: Reading[] = [];
  for (const { pace } of distinct(tried)) {
    // The path finds the tempo between those that are tried; the grid is then laid on it.
    const near = beatsNear(evidence, pace, pins, UNREST.sought);
    const reading = near === null ? null : layAtPace(evidence, paceOf(near.beats), pins);
    if (reading === null || readings.some((other) => nearIn(other.pace, reading.pace))) continue;
    readings.push(reading);
  }
  return readings.length === 0
    ? []
    : weighReadings(
        readings,
        readings.map(({ pace }) => usualPace(pace)),
      );
}
