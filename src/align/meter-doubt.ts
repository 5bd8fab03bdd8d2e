/**
 * Whether what both hands play goes in threes or in fours, whatever the chart says: a bass, a chord, a long or a loud
 * stroke comes back with the bar. A chart in the wrong meter is laid over the same beats as the right one, and every beat
 * of it is met; only what comes back tells its bars.
 */
import { quartersPerBar } from "../chart/index.ts";
import type { Chart } from "../chart/types.ts";
import { type Note, positionAt, secondsAt, type Take, type TimeMap, type Warning } from "../take/index.ts";
import { quartersOfBeat } from "./free/free-form.ts";
import { type FreeStrokes, freeStrokes, SIGNS } from "./free/free-strokes.ts";
import type { AlignmentMethod, NoteHand } from "./types.ts";

interface MeterDoubt {
  /** By how much less sure the bars are, 0 to 1: 1 where nothing speaks against the meter of the chart. */
  readonly share: number;
  /** Said where the meter is more likely wrong than right. */
  readonly warnings: readonly Warning[];
}

/** Beats on either side against which a sign is weighed: a piece that grows louder does not come back. */
const AROUND = 16;
/** Share of a beat within which a stroke stands for it, a sixteenth note's half. */
const WITH_BEAT = 1 / 8;
/** Beats after which bars and pairs of bars of three come back, and bars of four (or two of two) and pairs of them. */
const THREES = [3, 6] as const;
const FOURS = [4, 8] as const;

/**
 * Log odds of bars of three against bars of two or four: the constant, and what `inThrees` is worth. A logistic rule over
 * 21 performances of people, on the beats as they were found with their own chart and with a wrong one; without any one
 * composer it has all of his pieces on their side (`npm run report -- wrong-meter performances` counts them).
 */
export const METER_WEIGHTS = [-1.1, 4.1] as const;
/** Share of charts that are given in the right meter. [practice] */
const RIGHT_METER = 0.9;
/** Notes of the other hand, and beats (a chorus of blues), from which on something is said: a line alone has few accents. */
export const LEAST_NOTES = 20;
const LEAST_BEATS = 48;

const NONE: MeterDoubt = { share: 1, warnings: [] };

export interface LaidOnBeats {
  readonly method: AlignmentMethod;
  readonly map: TimeMap;
  readonly confidence: (bar: number) => number;
  readonly warnings: readonly Warning[];
}

/** What was found, with the doubt about the meter in it; bars that notation states are right whatever is heard. */
export function withMeterDoubt<T extends LaidOnBeats>(
  found: T,
  take: Take,
  chart: Chart,
  hands: readonly NoteHand[],
): T {
  if (found.method === "rubato" || found.method === "notated") return found;
  const { share, warnings } = meterDoubt(take, chart, hands, found.map);
  if (share === 1) return found;
  // Where the beats of the bars are doubted already, it is asked once.
  const asked = found.warnings.some(({ code }) => code === "meter-doubted");
  return {
    ...found,
    confidence: (bar: number) => share * found.confidence(bar),
    warnings: asked ? found.warnings : [...found.warnings, ...warnings],
  };
}

/** @param map a take's beats as they were found */
function meterDoubt({ notes }: Take, chart: Chart, hands: readonly NoteHand[], map: TimeMap): MeterDoubt {
  const quarters = quartersOfBeat(chart);
  const beats = quartersPerBar(chart.meter) / quarters;
  const given = barsOf(beats);
  const others = hands.filter(({ solo }) => !solo).length;
  if (given === null || others < LEAST_NOTES) return NONE;
  const threes = inThrees(notes, map, quarters);
  if (threes === null) return NONE;
  const [constant, weight] = METER_WEIGHTS;
  const odds = Math.exp((given === "three" ? -1 : 1) * (constant + weight * threes));
  const wrong = (1 - RIGHT_METER) * odds;
  return {
    share: Math.min(1, 1 / (RIGHT_METER + wrong)),
    warnings: wrong > RIGHT_METER ? [meterWarning(beats)] : [],
  };
}

/** Bars of six may go either way; those of five and seven are not told. */
function barsOf(beats: number): "three" | "four" | null {
  if (beats === 3 || beats === 9) return "three";
  return beats === 2 || beats === 4 || beats === 8 ? "four" : null;
}

/** @param beats of a bar of the chart, a number that `barsOf` tells */
export function meterWarning(beats: number): Warning {
  const heard = barsOf(beats) === "three" ? "2 or 4" : "3";
  return {
    code: "meter-doubted",
    message: `What is played comes back as in bars of ${heard} beats, and the chart has bars of ${beats}; if its meter is wrong, change it in the chart, else pin a bar line`,
    where: null,
  };
}

/**
 * How far the strokes on the beats of a map go in threes (above 0) or in fours (below): over all signs of a stroke, by how
 * much more beats three and six apart correlate than beats four and eight apart.
 *
 * @param quarters quarter notes of a beat
 * @returns null for too few beats
 */
export function inThrees(notes: readonly Note[], map: TimeMap, quarters: number): number | null {
  const strokes = freeStrokes(notes);
  const beats = strokesOnBeats(strokes, map, quarters);
  if (beats.length < LEAST_BEATS) return null;
  let sum = 0;
  for (let sign = 0; sign < SIGNS; sign++) {
    const row = besideOthers(beats.map((e) => (e < 0 ? null : strokes.signs[e * SIGNS + sign]!)));
    const size = row.reduce((all, value) => all + value * value, 0);
    if (size === 0) continue;
    for (const apart of THREES) sum += alike(row, apart) / size / THREES.length;
    for (const apart of FOURS) sum -= alike(row, apart) / size / FOURS.length;
  }
  return sum;
}

/** The stroke that stands for each beat from the first stroke to the last; -1 for none. */
function strokesOnBeats({ time, count }: FreeStrokes, map: TimeMap, quarters: number): number[] {
  const first = Math.ceil(positionAt(map, time[0]!) / quarters - WITH_BEAT);
  const last = Math.floor(positionAt(map, time[count - 1]!) / quarters + WITH_BEAT);
  const found: number[] = [];
  let e = 0;
  for (let k = first; k <= last; k++) {
    const at = secondsAt(map, k * quarters);
    const within = WITH_BEAT * (secondsAt(map, (k + 1) * quarters) - at);
    while (e + 1 < count && Math.abs(time[e + 1]! - at) <= Math.abs(time[e]! - at)) e++;
    found.push(Math.abs(time[e]! - at) <= within ? e : -1);
  }
  return found;
}

/** Values less the mean of those around; 0 where there is none. */
function besideOthers(row: readonly (number | null)[]): number[] {
  const sums = new Float64Array(row.length + 1);
  const counts = new Int32Array(row.length + 1);
  row.forEach((value, k) => {
    sums[k + 1] = sums[k]! + (value ?? 0);
    counts[k + 1] = counts[k]! + (value === null ? 0 : 1);
  });
  return row.map((value, k) => {
    if (value === null) return 0;
    const [from, to] = [Math.max(0, k - AROUND), Math.min(row.length, k + AROUND + 1)];
    return value - (sums[to]! - sums[from]!) / (counts[to]! - counts[from]!);
  });
}

function alike(row: readonly number[], apart: number): number {
  let sum = 0;
  for (let k = apart; k < row.length; k++) sum += row[k]! * row[k - apart]!;
  return sum;
}
