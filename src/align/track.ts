/** Follows a take with the bar pointer and turns the path into a time map. */
import type { Chart } from "../chart/types.ts";
import type { TimeKnot } from "../take/index.ts";
import { SKIPPED, type TrackedPath } from "./beam.ts";
import type { Events } from "./events.ts";
import { CELLS, type Metre, metreOf, PLACE } from "./metre.ts";
import { beatTimes, medianOf, type Sighting, straightLine } from "./smooth.ts";
import { follow } from "./tracker.ts";
import type { Pin, TrackerStart } from "./tracker-model.ts";

export interface Track {
  readonly path: TrackedPath;
  /** Sightings of unbroken stretches of the take; a slip or a pause begins a new one. */
  readonly stretches: readonly (readonly Sighting[])[];
  /** Knots of the map that follows every change of tempo. */
  readonly knots: readonly TimeKnot[];
  /** The straight line through all sightings: seconds at position 0, and seconds of a quarter note. */
  readonly line: { readonly start: number; readonly period: number };
  /** True when that one constant beat explains the take. */
  readonly constant: boolean;
  readonly metre: Metre;
}

export interface TrackOptions {
  /** Quarter notes a minute, or null when unknown. */
  readonly tempo: number | null;
  readonly pins: readonly Pin[];
}

const BEAM = 130;

export function track(events: Events, chart: Chart, options: TrackOptions): Track {
  let withComping = 0;
  for (const comping of events.comping) withComping += comping;
  const metre = metreOf(chart, withComping > 0.05 * events.count);
  const free = follow(events, metre, {
    start: startOf(metre, options),
    freedom: { clock: 0.02, tempo: 0.012, slips: true },
    pins: options.pins,
    beam: BEAM,
  });
  const path = steadier(events, metre, options, free);
  const stretches = sightingsOf(events, metre, path);
  const line = straightLine(stretches.flat());
  return { path, stretches, knots: knotsOf(stretches), line, constant: isConstant(stretches, line), metre };
}

/**
 * The free path, or that of a beat that hardly moves where this explains the take better: a player with a click has
 * no other freedom, and with less freedom the off-beats cannot be taken for beats.
 */
function steadier(events: Events, metre: Metre, options: TrackOptions, free: TrackedPath): TrackedPath {
  const sightings = sightingsOf(events, metre, free).flat();
  if (sightings.length < 8 || options.pins.length > 0) return free;
  const { start, period } = straightLine(sightings);
  if (!(period > 0.1 && period < 2)) return free;
  // Where half of the events lie far from any straight line, none need be tried.
  const beside = sightings.filter(
    ({ seconds, place }) => Math.abs(seconds - start - period * place) > 0.5 * period,
  );
  if (beside.length > sightings.length / 2) return free;
  const { places } = startOf(metre, options);
  const stiff = follow(events, metre, {
    start: {
      places,
      periods: [0.99, 0.995, 1, 1.005, 1.01].map((f) => ({ seconds: period * f, cost: 0 })),
      periodSpread: 0.004,
    },
    freedom: { clock: 0.002, tempo: 0.0004, slips: false },
    pins: [],
    beam: 60,
  });
  return stiff.score > free.score ? stiff : free;
}

/** Where a take may begin: mostly at the first bar line or in a pickup of up to two bars. */
function startOf(metre: Metre, options: TrackOptions): TrackerStart {
  const places: { cell: number; cost: number }[] = [];
  for (let cell = -2 * metre.bar; cell <= metre.bar; cell++) {
    const place = metre.place[((cell % metre.bar) + metre.bar) % metre.bar]!;
    if (place === PLACE.none) continue;
    const beats = Math.abs(cell) / CELLS;
    const rare = place === PLACE.triplet || place === PLACE.sixteenth ? 2 : 0;
    places.push({ cell, cost: rare + (cell === 0 ? 0 : cell < 0 ? 1.5 + 0.3 * beats : 1.2 + 0.4 * beats) });
  }
  if (options.tempo !== null) {
    const seconds = 60 / options.tempo;
    return {
      places,
      periods: [0.97, 1, 1.03].map((f) => ({ seconds: seconds * f, cost: 0 })),
      periodSpread: 0.015,
    };
  }
  const periods: { seconds: number; cost: number }[] = [];
  for (let tempo = 45; tempo < 305; tempo *= 1.035) {
    periods.push({ seconds: 60 / tempo, cost: Math.log(tempo / 130) ** 2 / (2 * 0.7 ** 2) });
  }
  return { places, periods, periodSpread: 0.02 };
}

function sightingsOf(events: Events, metre: Metre, path: TrackedPath): Sighting[][] {
  const stretches: Sighting[][] = [[]];
  let period = 0.5;
  for (let e = 0; e < events.count; e++) {
    const cell = path.cells[e]!;
    if (cell === SKIPPED) continue;
    if (path.broken[e] === 1 && stretches.at(-1)!.length > 0) stretches.push([]);
    const stretch = stretches.at(-1)!;
    const offBeat = metre.place[((cell % metre.bar) + metre.bar) % metre.bar] === PLACE.offBeat;
    const place = offBeat ? (cell - CELLS / 2) / CELLS + path.swing : cell / CELLS;
    const before = stretch.at(-1);
    if (before !== undefined && place > before.place)
      period = (events.time[e]! - before.seconds) / (place - before.place);
    const stroke = events.comping[e] === 1 ? 0.012 : 0.024;
    stretch.push({
      seconds: events.time[e]!,
      place,
      spread: offBeat ? Math.hypot(stroke, 0.05 * Math.min(1.2, period)) : stroke,
    });
  }
  return stretches;
}

/** Knots on every quarter note of every stretch; between stretches the map runs straight. */
function knotsOf(stretches: readonly (readonly Sighting[])[]): TimeKnot[] {
  const knots: TimeKnot[] = [];
  for (const stretch of stretches) {
    if (stretch.length < 2 || stretch.at(-1)!.place === stretch[0]!.place) continue;
    const whole =
      (stretch.at(-1)!.seconds - stretch[0]!.seconds) / (stretch.at(-1)!.place - stretch[0]!.place);
    const { first, times } = beatTimes(stretch, 0.025 * whole);
    const begin = stretch[0]!.seconds;
    // What a slip took back is laid over again: the later reading holds.
    while (
      knots.length > 0 &&
      (knots.at(-1)!.position >= stretch[0]!.place - 1e-6 || knots.at(-1)!.seconds >= begin - 1e-3)
    )
      knots.pop();
    times.forEach((seconds, k) => {
      const last = knots.at(-1);
      if (last === undefined || (seconds > last.seconds + 1e-3 && first + k > last.position)) {
        knots.push({ seconds, position: first + k });
      }
    });
  }
  return knots;
}

/**
 * True when the beat strays from one straight line by no more than a hand's own unrest explains: the uneven onsets of
 * a beginner bend the smoothed beat as well, and its ends, held from one side only, bend most.
 */
function isConstant(stretches: readonly (readonly Sighting[])[], line: Track["line"]): boolean {
  if (stretches.length !== 1 || stretches[0]!.length < 8) return false;
  const sightings = stretches[0]!;
  const { start, period } = line;
  const { first, times } = beatTimes(sightings, 0.025 * period);
  const errors = Array.from(times, (seconds, k) => Math.abs(seconds - start - period * (first + k)));
  const rms = Math.sqrt(errors.reduce((sum, error) => sum + error * error, 0) / errors.length);
  const unrest = medianOf(sightings.map(({ seconds, place }) => Math.abs(seconds - start - period * place)));
  const largest = Math.max(...errors.slice(1, -1));
  return rms < Math.max(0.014, 0.8 * unrest) && largest < Math.max(0.06, 3 * unrest);
}
