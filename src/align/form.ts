/** From a time map to what the account says of the form: choruses, bars, pickup, tempo. */
import { extent, median } from "d3-array";
import { chorusBeats, quartersPerBar } from "../chart/index.ts";
import type { Chart } from "../chart/types.ts";
import type { Note, TimeMap } from "../take/index.ts";
import { positionAt, secondsAt } from "../take/index.ts";
import type { BarTime, NoteHand } from "./types.ts";

/**
 * Choruses in a number of bars. A short rest of bars after whole choruses is an ending tag and belongs to the last
 * of them; a longer one is a chorus that was broken off [practice: tags are of one to four bars].
 *
 * @example countChoruses(26, 12) // 2, with a tag of two bars
 */
export function countChoruses(bars: number, barsPerChorus: number): number {
  const whole = Math.floor(bars / barsPerChorus);
  const rest = bars - whole * barsPerChorus;
  if (whole === 0) return 1;
  return rest <= longestTag(barsPerChorus) ? whole : whole + 1;
}

/** Bars that an ending tag may have after a form of so many bars. */
function longestTag(barsPerChorus: number): number {
  return Math.min(4, Math.floor(barsPerChorus / 3));
}

/** Bars of the chart that have begun by the last onset, pickup not counted; at least 1. */
export function barsPlayed(map: TimeMap, notes: readonly Note[], chart: Chart): number {
  const last = notes.reduce((latest, note) => Math.max(latest, note.onset), Number.NEGATIVE_INFINITY);
  if (notes.length === 0) return chart.bars.length;
  // A note struck a little before the bar line opens the bar that it leads into.
  const position = positionAt(map, last);
  return Math.max(1, Math.floor((position + 0.15) / quartersPerBar(chart.meter)) + 1);
}

/** Chorus (from 1) and bar of a chart position; pickups stand in bar 0, -1, ..., a tag in bars after the last. */
export function placeOf(position: number, chart: Chart, choruses: number): { chorus: number; bar: number } {
  const bar = Math.floor(position / quartersPerBar(chart.meter) + 1e-9);
  const chorus = Math.min(choruses, Math.max(1, Math.floor(bar / chart.bars.length) + 1));
  return { chorus, bar: bar - (chorus - 1) * chart.bars.length + 1 };
}

/** Every bar that was played, in seconds: from bar 1 of chorus 1, or from that in which the take begins. */
export function barTimes(
  map: TimeMap,
  chart: Chart,
  choruses: number,
  bars: { readonly from: number; readonly to: number },
  confidence: (bar: number) => number,
): BarTime[] {
  const length = quartersPerBar(chart.meter);
  return Array.from({ length: bars.to - bars.from }, (_, k) => bars.from + k).map((b) => ({
    ...placeOf(b * length, chart, choruses),
    start: secondsAt(map, b * length),
    end: secondsAt(map, (b + 1) * length),
    confidence: confidence(b),
  }));
}

/** Whole bars of the form that had passed before the first onset: 0 for all takes but those that begin inside it. */
export function barsLeftOut(map: TimeMap, notes: readonly Note[], chart: Chart): number {
  const first = notes.reduce((earliest, note) => Math.min(earliest, note.onset), Number.POSITIVE_INFINITY);
  return Math.max(0, Math.floor((positionAt(map, first) + 0.15) / quartersPerBar(chart.meter)));
}

/** Quarter-note beats of solo before the first bar line, to the nearest quarter of a beat. */
export function pickupOf(map: TimeMap, notes: readonly Note[], hands: readonly NoteHand[]): number {
  const first = notes.find((_, i) => hands[i]!.solo);
  if (first === undefined) return 0;
  return Math.max(0, -Math.round(positionAt(map, first.onset) * 4) / 4);
}

/** Times the median tempo beyond which a bar was passed over and has no tempo: a bar that was left out is. [practice] */
const PASSED_OVER = 3;

/** Median, slowest and fastest tempo of the bars that were played, in quarter notes a minute. */
export function tempoOf(
  bars: readonly BarTime[],
  chart: Chart,
): { median: number; slowest: number; fastest: number } {
  const tempos = bars.map((bar) => (60 * quartersPerBar(chart.meter)) / (bar.end - bar.start));
  const middle = median(tempos)!;
  const [slowest, fastest] = extent(tempos.filter((one) => one < PASSED_OVER * middle)) as [number, number];
  return { median: middle, slowest, fastest };
}

/** Position within the form, 0 up to the length of a chorus, of any chart position. */
export function inForm(position: number, chart: Chart): number {
  const form = chorusBeats(chart);
  return position - Math.floor(position / form + 1e-9) * form;
}
