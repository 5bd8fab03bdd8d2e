/**
 * Following the chart without a beat: chord boundaries from the harmony alone. Each chord of the form takes a run of
 * events; how long it lasts is free, though lasting very much longer or shorter than its share is dear. The best
 * division is found by dynamic programming over chords and events (a semi-Markov chain; Ostendorf et al. 1996 for
 * the family), for every likely number of choruses.
 */
import { chorusBeats, quartersPerBar } from "../chart/index.ts";
import type { Chart } from "../chart/types.ts";
import type { TimeKnot } from "../take/index.ts";
import type { Events } from "./events.ts";
import { CELLS } from "./metre.ts";
import type { Pin } from "./tracker-model.ts";

export interface RubatoResult {
  /** One knot for each chord boundary, and one at the end. */
  readonly knots: readonly TimeKnot[];
  /** 0 to 1 for each knot but the last: how clearly the boundary is where it is said to be. */
  readonly clear: readonly number[];
  /** Nats for each event by which the best number of choruses leads the next. */
  readonly lead: number;
}

/** Prices and spreads [practice; set on simulated takes]. */
const RUBATO = {
  /** Weight of the harmony of one event, since neighbours tell the same. */
  harmony: 2,
  /** Standard deviation of a chord's length around its share (log). */
  length: 0.65,
  /** A chord that begins with the line alone, without the comping hand. */
  lineOnly: -3,
  /** A chord that begins with keys that the comping hand did not strike just before. */
  novel: 2.5,
  tag: -4,
  pickup: -1.5,
  /** Usual tempo of the quarter note and its spread (log). */
  tempo: 75,
  tempoSpread: 0.55,
} as const;

/** A chord with all its neighbours of the same name, in one run through the form. */
interface Region {
  readonly stretch: number;
  /** Quarter-note beats from the first bar line. */
  readonly position: number;
  readonly beats: number;
}

/**
 * Chord boundaries in seconds.
 *
 * @param pins moments whose place is known
 * @param end seconds at which the last key is let go
 */
export function rubatoKnots(events: Events, chart: Chart, pins: readonly Pin[], end: number): RubatoResult {
  const seconds = end - events.time[0]!;
  const form = chorusBeats(chart);
  const table = prefixSums(events);
  let best: Division | null = null;
  let second = Number.NEGATIVE_INFINITY;
  for (let choruses = 1; choruses <= 40; choruses++) {
    const tempo = (60 * choruses * form) / seconds;
    if (choruses > 1 && tempo > 180) break;
    if (tempo < 26 && (60 * (choruses + 1) * form) / seconds < 150) continue;
    const found = divide(events, chart, choruses, table, pins, end);
    if (found === null) continue;
    const slow = Math.log(tempo / RUBATO.tempo) / RUBATO.tempoSpread;
    const score = found.score - (slow * slow) / 2;
    if (best === null || score > best.score) {
      second = best?.score ?? second;
      best = { ...found, score };
    } else second = Math.max(second, score);
  }
  if (best === null) return evenly(events, chart, end);
  const knots = knotsOf(best, events, chart, end);
  return { knots, clear: best.clear, lead: Math.min(9, (best.score - second) / events.count) };
}

interface Division {
  readonly score: number;
  readonly regions: readonly Region[];
  /** First event of each region. */
  readonly starts: readonly number[];
  readonly clear: readonly number[];
  /** True when the last region is a tag after whole choruses. */
  readonly tagged: boolean;
}

/** Running sums over events of the harmony inside each stretch: `sums[event * width + stretch]`. */
function prefixSums(events: Events): Float64Array {
  const { width, count, inside } = events;
  const sums = new Float64Array((count + 1) * width);
  for (let e = 0; e < count; e++) {
    for (let s = 0; s < width; s++) sums[(e + 1) * width + s] = sums[e * width + s]! + inside[e * width + s]!;
  }
  return sums;
}

function regionsOf(events: Events, chart: Chart, choruses: number): Region[] {
  const regions: { stretch: number; position: number; beats: number }[] = [];
  const form = chorusBeats(chart);
  for (let c = 0; c < choruses; c++) {
    events.stretches.forEach((stretch, s) => {
      const last = regions.at(-1);
      const same =
        last !== undefined && events.stretches[last.stretch]!.chord?.symbol === stretch.chord?.symbol;
      if (same) last.beats += stretch.beats;
      else regions.push({ stretch: s, position: c * form + stretch.start, beats: stretch.beats });
    });
  }
  return regions;
}

function divide(
  events: Events,
  chart: Chart,
  choruses: number,
  sums: Float64Array,
  pins: readonly Pin[],
  end: number,
): Division | null {
  const { count, width, time } = events;
  const whole = regionsOf(events, chart, choruses);
  // The tag rests on the first chord of the form, or stays on its last.
  const tag: Region = {
    stretch: 0,
    position: choruses * chorusBeats(chart),
    beats: quartersPerBar(chart.meter),
  };
  const regions = [...whole, tag];
  const m = whole.length;
  if (m > count) return null;
  const period = (end - time[0]!) / (choruses * chorusBeats(chart));
  const step = new Float64Array((m + 2) * (count + 1)).fill(Number.NEGATIVE_INFINITY);
  const back = new Int32Array((m + 2) * (count + 1)).fill(-1);
  const at = (k: number, e: number) => k * (count + 1) + e;
  const value = (k: number, from: number, to: number) =>
    regionScore(events, sums, regions[k]!, from, to, period, k >= m - 1, pins, end);
  // Region 0 may begin after a few events of pickup, which hear the form's last chord.
  const home = width - 1;
  for (let e = 0; e < Math.min(count, 12); e++) {
    const pickup = e === 0 ? 0 : RUBATO.pickup + RUBATO.harmony * sums[e * width + home]!;
    step[at(0, e)] = time[e]! - time[0]! > 4 * period && e > 0 ? Number.NEGATIVE_INFINITY : pickup;
  }
  // What a region's first event is worth, and what it has at its start: one sum for each (region, first event).
  const entry = new Float64Array(count);
  for (let k = 0; k <= m; k++) {
    const { stretch: s, beats } = regions[k]!;
    const expected = Math.log(beats * period);
    const longest = 4 * beats * period;
    const closing = k >= m - 1;
    for (let e = k; e < count; e++) {
      entry[e] = step[at(k, e)]! - RUBATO.harmony * sums[e * width + s]! + opening(events, e, s);
    }
    let low = k;
    for (let to = k + 1; to <= count; to++) {
      if (k === m ? to < count : k === m - 1 && to < count - 40 && to < count * 0.6) continue;
      const stop = to < count ? time[to]! : end;
      while (!closing && stop - time[low]! > longest) low++;
      const base = RUBATO.harmony * sums[to * width + s]!;
      let top = Number.NEGATIVE_INFINITY;
      let from = -1;
      for (let e = k === m ? Math.max(k, count - 40) : low; e < to; e++) {
        const open = entry[e]!;
        if (open + base <= top) continue;
        const length = Math.log(Math.max(0.05, stop - time[e]!)) - expected;
        const score =
          open + base - lengthPrice(length, closing) - pinPrice(pins, regions[k]!, time[e]!, stop);
        if (score > top) {
          top = score;
          from = e;
        }
      }
      step[at(k + 1, to)] = k === m ? top + RUBATO.tag : top;
      back[at(k + 1, to)] = from;
    }
  }
  const withTag = step[at(m + 1, count)]!;
  const without = step[at(m, count)]!;
  const used = withTag > without ? m + 1 : m;
  const score = Math.max(withTag, without);
  if (score === Number.NEGATIVE_INFINITY) return null;
  const starts = new Array<number>(used);
  let to = count;
  for (let k = used; k > 0; k--) {
    to = back[at(k, to)]!;
    starts[k - 1] = to;
  }
  const clear = starts.map((start, k) => clarity(events, starts, k, start, used, value));
  return { score, regions: regions.slice(0, used), starts, clear, tagged: used > m };
}

/** Nats of one chord over the events `from` to `to` (not included). */
function regionScore(
  events: Events,
  sums: Float64Array,
  region: Region,
  from: number,
  to: number,
  period: number,
  closing: boolean,
  pins: readonly Pin[],
  end: number,
): number {
  const { width, time, count } = events;
  const s = region.stretch;
  const stop = to < count ? time[to]! : end;
  const length = Math.log(Math.max(0.05, stop - time[from]!) / (region.beats * period));
  return (
    RUBATO.harmony * (sums[to * width + s]! - sums[from * width + s]!) +
    opening(events, from, s) -
    lengthPrice(length, closing) -
    pinPrice(pins, region, time[from]!, stop)
  );
}

/** Nats that an event gains or loses by being the first of a chord. */
function opening(events: Events, e: number, stretch: number): number {
  const k = e * events.width + stretch;
  const first = RUBATO.harmony * (events.onChange[k]! - events.inside[k]!);
  return events.comping[e] === 1 ? first + RUBATO.novel * events.novel[e]! : first + RUBATO.lineOnly;
}

/** `length`: log of a chord's length over its share. The last chord is held, or broken off, as the player likes. */
function lengthPrice(length: number, closing: boolean): number {
  const x = length / RUBATO.length;
  return closing ? Math.min(2, (x * x) / 4) : (x * x) / 2;
}

function pinPrice(pins: readonly Pin[], region: Region, start: number, stop: number): number {
  let price = 0;
  for (const pin of pins) {
    if (pin.seconds < start - 0.05 || pin.seconds >= stop - 0.05) continue;
    const position = pin.cell / CELLS;
    if (position < region.position - 0.01 || position > region.position + region.beats + 0.01) price += 60;
  }
  return price;
}

/** Share of likelihood that a boundary has within a quarter of a second of where it was put, its neighbours kept. */
function clarity(
  events: Events,
  starts: readonly number[],
  k: number,
  start: number,
  used: number,
  value: (k: number, from: number, to: number) => number,
): number {
  if (k === 0) return 1;
  const low = starts[k - 1]! + 1;
  const high = (k + 1 < used ? starts[k + 1]! : events.count) - 1;
  const next = k + 1 < used ? starts[k + 1]! : events.count;
  const scores: number[] = [];
  for (let e = low; e <= high; e++) scores.push(value(k - 1, starts[k - 1]!, e) + value(k, e, next));
  const top = Math.max(...scores);
  let near = 0;
  let all = 0;
  scores.forEach((score, i) => {
    const weight = Math.exp(score - top);
    all += weight;
    if (Math.abs(events.time[low + i]! - events.time[start]!) <= 0.25) near += weight;
  });
  return near / all;
}

function knotsOf(best: Division, events: Events, chart: Chart, end: number): TimeKnot[] {
  const knots: TimeKnot[] = best.starts.map((start, k) => ({
    seconds: events.time[start]!,
    position: best.regions[k]!.position,
  }));
  const last = best.regions.at(-1)!;
  const bar = quartersPerBar(chart.meter);
  const final = {
    seconds: Math.max(end, knots.at(-1)!.seconds + 0.05),
    position: last.position + last.beats,
  };
  if (best.tagged) {
    const period = (knots.at(-1)!.seconds - knots[0]!.seconds) / (last.position - knots[0]!.position);
    const bars = Math.max(1, Math.round((final.seconds - knots.at(-1)!.seconds) / (period * bar)));
    final.position = last.position + Math.min(bars, 4) * bar;
  }
  return [...knots, final];
}

/** No division fits (fewer events than chords): one chorus is laid over the take evenly. */
function evenly(events: Events, chart: Chart, end: number): RubatoResult {
  const start = events.time[0]!;
  const knots = [
    { seconds: start, position: 0 },
    { seconds: Math.max(end, start + 0.1), position: chorusBeats(chart) },
  ];
  return { knots, clear: [0], lead: 0 };
}
