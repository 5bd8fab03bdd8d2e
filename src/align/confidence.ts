/**
 * How sure a bar is: a handful of signs, weighed by a logistic rule that was fitted to simulated takes, so that of
 * bars said to be 90 % sure about 90 % are right (the report `align` prints said against found).
 */
import { logistic } from "../statistics/logistic.ts";
import { SKIPPED } from "./beam.ts";
import { type Events, harmonyAt } from "./events.ts";
import { CELLS, type Metre } from "./metre.ts";
import { medianOf } from "./smooth.ts";
import type { Track } from "./track.ts";

/** Signs of one bar, each roughly between -3 and 3. */
export interface BarSigns {
  /** Nats by which harmony and metre over the whole take prefer this place to the best one near by (log scale). */
  readonly whole: number;
  /** The same within four bars on either side. */
  readonly near: number;
  /** Events in the bar and its neighbours (log scale). */
  readonly events: number;
  /** Spread of the onsets around the beat, in 30 ms. */
  readonly spread: number;
  /** Largest change of tempo from quarter note to quarter note around the bar (log, in tenths). */
  readonly unrest: number;
  /** A slip or pause within two bars. */
  readonly broken: number;
  /** Nats for each event of the whole path. */
  readonly path: number;
  /** 1 where the take might have begun elsewhere in the form. */
  readonly doubtful: number;
  /** Spread of the onsets in a usual bar of the take, in 30 ms. */
  readonly uneven: number;
}

/**
 * Weights of the signs: a logistic rule (Platt 1999) fitted with a small penalty on simulated takes of seeds 20000 to
 * 22049, not on those that the report measures. With players up to twice and up to four times as uneven as those of
 * the literature among them: a take whose onsets lie far from any beat is not to be believed in.
 */
const SIGN_WEIGHTS: Readonly<Record<keyof BarSigns | "base", number>> = {
  base: 4.037,
  whole: 0.086,
  near: 1.84,
  events: 1.963,
  spread: -0.842,
  unrest: -0.275,
  broken: -1.24,
  path: 0.02,
  doubtful: 0.085,
  uneven: -7.001,
};

/**
 * What a rule says, and what share of such bars was right in takes that it was not fitted on (seeds 20000 to 22049 in
 * eight folds, and 1000 to 1039), made rising (Zadrozny & Elkan 2002); straight between the points.
 */
type Curve = readonly (readonly [number, number])[];

function found(said: number, curve: Curve): number {
  let k = 1;
  while (k + 1 < curve.length && curve[k]![0] < said) k++;
  const [[x0, y0], [x1, y1]] = [curve[k - 1]!, curve[k]!];
  return y0 + ((said - x0) / (x1 - x0)) * (y1 - y0);
}

const SIGNS_FOUND: Curve = [
  [0, 0],
  [0.16, 0.06],
  [0.25, 0.17],
  [0.4, 0.42],
  [0.55, 0.52],
  [0.65, 0.7],
  [0.75, 0.78],
  [1, 1],
];

/** 0 to 1 from the signs of a bar. */
export function sureness(signs: BarSigns): number {
  const w = SIGN_WEIGHTS;
  let sum = w.base;
  for (const key of Object.keys(signs) as (keyof BarSigns)[]) sum += w[key] * signs[key];
  return found(logistic(sum), SIGNS_FOUND);
}

/** Shifts in beats of the meter that a listener could mistake for the right place. */
const RIVALS = [-4, -3, -2, -1, -0.5, 0.5, 1, 2, 3, 4];

/** Signs of each bar from the first bar line on. */
export function barSigns(events: Events, followed: Track, bars: number): BarSigns[] {
  const { metre, path } = followed;
  const shifts = RIVALS.map((beats) => Math.round(beats * metre.beat)).filter(onPlaces);
  // Where the take might have begun elsewhere, the bars of the form are rivals too.
  if (followed.doubtful) for (const b of [1, 2, 4, 8]) shifts.push(b * metre.bar, -b * metre.bar);
  const lead = leads(events, metre, followed, shifts, bars);
  const count = new Float64Array(bars);
  const broken = new Float64Array(bars);
  for (let e = 0; e < events.count; e++) {
    const cell = path.cells[e]!;
    if (cell === SKIPPED) continue;
    const b = Math.floor(cell / metre.bar);
    if (b < 0 || b >= bars) continue;
    count[b]! += 1;
    broken[b]! += path.broken[e]!;
  }
  const { spread, unrest } = timeSigns(followed, bars);
  const uneven = Math.min(3, medianOf([...spread]) / 0.03);
  return Array.from({ length: bars }, (_, b) => {
    const near = (row: Float64Array, reach: number) => {
      let sum = 0;
      for (let k = Math.max(0, b - reach); k <= Math.min(bars - 1, b + reach); k++) sum += row[k]!;
      return sum;
    };
    return {
      whole: signedLog(lead.whole),
      near: signedLog(lead.near[b]!),
      events: Math.log1p(near(count, 1)) - 2,
      spread: Math.min(3, spread[b]! / 0.03),
      unrest: Math.min(3, unrest[b]! * 10),
      broken: Math.min(1, near(broken, 2)),
      path: path.score / events.count,
      doubtful: followed.doubtful ? 1 : 0,
      uneven,
    };
  });
}

function onPlaces(shift: number): boolean {
  return Number.isInteger(shift) && shift % (CELLS / 2) === 0;
}

function signedLog(nats: number): number {
  return Math.sign(nats) * Math.log1p(Math.abs(nats) / 4);
}

/** Nats by which the path's places beat the best of the shifted ones, over the take and around each bar. */
function leads(
  events: Events,
  metre: Metre,
  followed: Track,
  shifts: readonly number[],
  bars: number,
): { whole: number; near: Float64Array } {
  const near = new Float64Array(bars).fill(Number.POSITIVE_INFINITY);
  let whole = Number.POSITIVE_INFINITY;
  for (const shift of shifts) {
    const perBar = new Float64Array(bars);
    let sum = 0;
    for (let e = 0; e < events.count; e++) {
      const cell = followed.path.cells[e]!;
      if (cell === SKIPPED) continue;
      const gain = worth(events, metre, e, cell) - worth(events, metre, e, cell + shift);
      sum += gain;
      const b = Math.floor(cell / metre.bar);
      if (b >= 0 && b < bars) perBar[b]! += gain;
    }
    whole = Math.min(whole, sum);
    const running = new Float64Array(bars + 1);
    for (let b = 0; b < bars; b++) running[b + 1] = running[b]! + perBar[b]!;
    for (let b = 0; b < bars; b++) {
      near[b] = Math.min(near[b]!, running[Math.min(bars, b + 5)]! - running[Math.max(0, b - 4)]!);
    }
  }
  return { whole, near };
}

/** Nats of one event at one place: its pitches, and whether events fall there at all. */
function worth(events: Events, metre: Metre, e: number, cell: number): number {
  const inBar = ((cell % metre.bar) + metre.bar) % metre.bar;
  const struck = metre.struck[events.comping[e]! * metre.bar + inBar]!;
  return 0.95 * harmonyAt(events, e, cell) + Math.max(-6, struck);
}

function timeSigns(followed: Track, bars: number): { spread: Float64Array; unrest: Float64Array } {
  const { knots, metre, stretches } = followed;
  const beatsInBar = metre.bar / CELLS;
  const square = new Float64Array(bars);
  const seen = new Float64Array(bars);
  const unrest = new Float64Array(bars);
  let k = 0;
  for (const { seconds, place, spread } of stretches.flat()) {
    const b = Math.floor(place / beatsInBar);
    if (b < 0 || b >= bars || spread > 0.03) continue;
    while (k + 2 < knots.length && knots[k + 1]!.position <= place) k++;
    while (k > 0 && knots[k]!.position > place) k--;
    const [from, to] = [knots[k], knots[k + 1]];
    if (from === undefined || to === undefined) continue;
    const share = (place - from.position) / (to.position - from.position);
    square[b]! += (seconds - from.seconds - share * (to.seconds - from.seconds)) ** 2;
    seen[b]! += 1;
  }
  for (let i = 2; i < knots.length; i++) {
    const [a, c, d] = [knots[i - 2]!, knots[i - 1]!, knots[i]!];
    const before = (c.seconds - a.seconds) / (c.position - a.position);
    const after = (d.seconds - c.seconds) / (d.position - c.position);
    const b = Math.floor(c.position / beatsInBar);
    for (const bar of [b - 1, b, b + 1]) {
      if (bar >= 0 && bar < bars) unrest[bar] = Math.max(unrest[bar]!, Math.abs(Math.log(after / before)));
    }
  }
  return { spread: square.map((sum, b) => (seen[b]! > 0 ? Math.sqrt(sum / seen[b]!) : 0.04)), unrest };
}

/**
 * The same for takes that are followed by their harmony: how clear the chord boundaries at the bar's two ends are
 * (log odds), if there are any. Fitted on the same takes.
 */
const BOUNDARY_WEIGHTS = {
  base: -1.869,
  start: 0.436,
  end: 0.492,
  startMarked: 0.148,
  endMarked: -0.265,
} as const;

const BOUNDARY_FOUND: Curve = [
  [0, 0.05],
  [0.25, 0.22],
  [0.4, 0.36],
  [0.66, 0.44],
  [0.74, 0.82],
  [0.86, 0.94],
  [1, 1],
];

/**
 * Sureness of the bars of a take that was followed by its harmony. A bar line without a change of chord was heard by
 * nobody, and is hardly ever sure.
 *
 * @param positions chart position of each boundary, rising
 * @param clear sureness of each boundary
 * @param length quarter-note beats in a bar
 */
export function rubatoSureness(
  positions: readonly number[],
  clear: readonly number[],
  length: number,
): (bar: number) => number {
  const w = BOUNDARY_WEIGHTS;
  const odds = (position: number): number | null => {
    let k = 0;
    while (k + 1 < clear.length && positions[k + 1]! <= position + 1e-6) k++;
    if (Math.abs(positions[k]! - position) > 1e-6) return null;
    const share = Math.min(0.995, Math.max(0.02, clear[k]!));
    return Math.log(share / (1 - share));
  };
  return (bar) => {
    const [start, end] = [odds(bar * length), odds((bar + 1) * length)];
    const sum =
      w.base +
      (start === null ? 0 : w.startMarked + w.start * start) +
      (end === null ? 0 : w.endMarked + w.end * end);
    return found(logistic(sum), BOUNDARY_FOUND);
  };
}
