/** A take laid on its chart by the lattice: on known beats, at a told tempo, or at the tempo that explains it best. */
import type { Chart } from "../../chart/types.ts";
import type { Note } from "../../take/index.ts";
import { type Evidence, evidenceOf } from "./evidence.ts";
import type { FormBeats } from "./form-beats.ts";
import { freeGrid, knownGrid } from "./grids.ts";
import { layOnLattice } from "./lattice.ts";
import type { Laid, LatticePin, LatticeStart } from "./lattice-types.ts";
import type { Strokes } from "./line-features.ts";
import { BEGIN_TO, END_FROM, END_TO } from "./line-model.ts";
import { LINE_TABLES } from "./line-tables.ts";
import { rhythmEvidence } from "./step-rhythm.ts";

/** A way to lay a take. */
export interface Reading {
  /** Seconds at which each beat begins, and the number of the first: 0 is the first beat of the first chorus. */
  readonly beats: Float64Array;
  readonly firstBeat: number;
  /** Beats (of the meter's foot) a minute. */
  readonly pace: number;
  /** Share of all readings that agree on each stroke's beat of the form, the doubt about the tempo taken in. */
  readonly sure: Float64Array;
  /** Share of this tempo among all that were weighed, 0 to 1. */
  readonly share: number;
}

/** How far pitch and rhythm are believed: both lean on their neighbours, and count for less than one by one. */
const WEIGHTS = { chord: 0.85, rhythm: 0.7 };

export function lineEvidence(notes: readonly Note[], strokes: Strokes, chart: Chart): Evidence {
  return evidenceOf(notes, strokes, chart, LINE_TABLES, WEIGHTS);
}

/** Share of takes that begin and end as the counted solos do; the others begin and end anywhere. */
const AS_COUNTED = 0.97;
const AS_ENDED = 0.8;

function startOf(form: FormBeats): Pick<LatticeStart, "begin" | "end"> {
  const bars = form.count / form.bar;
  const begin = new Float64Array(form.count);
  const end = new Float64Array(form.count);
  for (let p = 0; p < form.count; p++) {
    const bar = Math.floor(p / form.bar);
    const begun = bar + 1 <= BEGIN_TO ? Math.exp(LINE_TABLES.begin[bar + 1]!) : 0;
    const pickup = bar === bars - 1 ? Math.exp(LINE_TABLES.begin[0]!) : 0;
    begin[p] = Math.log((AS_COUNTED * (begun + pickup)) / form.bar + (1 - AS_COUNTED) / form.count);
    let ended = 0;
    for (const left of [bar + 1 - bars, bar + 1]) {
      if (left >= END_FROM && left <= END_TO) ended += Math.exp(LINE_TABLES.end[left - END_FROM]!);
    }
    end[p] = Math.log(AS_ENDED * ended * bars + (1 - AS_ENDED));
  }
  return { begin, end };
}

/** Bars before the form that are heard as leading into it, not as its end. */
function longestPickup(form: FormBeats): number {
  const bars = form.count / form.bar;
  return bars <= 4 ? 0 : Math.max(2, Math.min(8, bars / 4));
}

function readingOf(laid: Laid, form: FormBeats, share: number, pins: readonly LatticePin[]): Reading {
  let firstBeat = laid.firstBeat;
  if (firstBeat >= form.count - longestPickup(form) * form.bar) firstBeat -= form.count;
  const [pin] = pins;
  if (pin !== undefined) {
    // The pin tells the chorus.
    let k = 0;
    while (k + 1 < laid.beats.length && laid.beats[k + 1]! <= pin.seconds) k++;
    firstBeat += Math.round((pin.beat - k - firstBeat) / form.count) * form.count;
  }
  const n = laid.beats.length;
  return {
    beats: laid.beats,
    firstBeat,
    pace: (60 * (n - 1)) / (laid.beats[n - 1]! - laid.beats[0]!),
    sure: laid.sure.map((sure) => sure * share),
    share,
  };
}

/** Where the file begins its bars, and the share of takes whose form begins them there as well. */
export interface FileBars {
  /** Number (in the row of beats) of a beat on which the file begins a bar. */
  readonly at: number;
  readonly share: number;
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
    const [on, off] = [Math.log(fileBars.share), Math.log((1 - fileBars.share) / Math.max(1, form.bar - 1))];
    barLines = (column, p) =>
      (((p - column + fileBars.at) % form.bar) + form.bar) % form.bar === 0 ? on : off;
  }
  const laid = layOnLattice(evidence, knownGrid(times), { ...startOf(form), known: barLines, pins });
  return laid === null ? null : readingOf(laid, form, 1, pins);
}

/** Lays a take at a told tempo (beats a minute). */
export function layAtPace(
  evidence: Evidence,
  pace: number,
  pins: readonly LatticePin[] = [],
): Reading | null {
  const { strokes, form } = evidence;
  const grid = freeGrid(60 / pace, strokes.time[0]!, strokes.time[strokes.count - 1]!);
  const laid = layOnLattice(evidence, grid, { ...startOf(form), known: null, pins });
  return laid === null ? null : readingOf(laid, form, 1, pins);
}

/** Step between the tempos that are tried, and how many of them are weighed against the chart. */
const STEP = 1.19;
const WEIGHED = 4;
/** Usual pace of the beat and its spread (log): improvised solos of the open data. */
const USUAL = 165;
const SPREAD = 0.5;
/** Evidence of many strokes is trusted less than their number says. */
const TRUST = 0.15;

/**
 * Lays a take whose tempo nobody told: rhythm alone names the tempos that may be, the chart decides among them.
 *
 * @returns readings, the likeliest first; none for a take that fits none
 */
export function layAtAnyPace(evidence: Evidence, pins: readonly LatticePin[] = []): Reading[] {
  const { strokes, form } = evidence;
  const [from, to] = [strokes.time[0]!, strokes.time[strokes.count - 1]!];
  const usual = (pace: number) => -((Math.log(pace / USUAL) / SPREAD) ** 2) / 2;
  const tried: { pace: number; evidence: number }[] = [];
  // Tempos are told by the take's own steps, so that a take played faster is tried at faster tempos.
  const middle = 30 / Math.max(0.02, strokes.step);
  const lowest = Math.ceil(Math.log(45 / middle) / Math.log(STEP));
  for (let k = lowest; middle * STEP ** k < 340; k++) {
    const pace = middle * STEP ** k;
    const found = rhythmEvidence(evidence, freeGrid(60 / pace, from, to));
    tried.push({ pace, evidence: TRUST * found + usual(pace) });
  }
  tried.sort((a, b) => b.evidence - a.evidence);
  const laid: { laid: Laid; weight: number; pace: number }[] = [];
  for (const { pace } of tried.slice(0, WEIGHED)) {
    const grid = freeGrid(60 / pace, from, to);
    const one = layOnLattice(evidence, grid, { ...startOf(form), known: null, pins });
    if (one !== null) laid.push({ laid: one, weight: TRUST * one.evidence + usual(pace), pace });
  }
  if (laid.length === 0) return [];
  laid.sort((a, b) => b.weight - a.weight);
  const top = laid[0]!.weight;
  const sum = laid.reduce((s, { weight }) => s + Math.exp(weight - top), 0);
  return laid.map((one) => readingOf(one.laid, form, Math.exp(one.weight - top) / sum, pins));
}
