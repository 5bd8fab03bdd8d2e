/** Follows a take with the bar pointer and turns the path into a time map. */
import type { Chart } from "../chart/types.ts";
import type { TimeKnot } from "../take/index.ts";
import { SKIPPED, type TrackedPath } from "./beam.ts";
import {
  gainElsewhere,
  LONGEST_INTRO,
  pinnedPlaces,
  unusualPlaces,
  usualPeriods,
  usualPlaces,
} from "./beginnings.ts";
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
  /** True when another place in the form explains the take nearly as well, or did before one was sought. */
  readonly doubtful: boolean;
}

export interface TrackOptions {
  /** Quarter notes a minute, or null when unknown. */
  readonly tempo: number | null;
  readonly pins: readonly Pin[];
}

const BEAM = 130;

/** Lays the events of a take over its chart, beat and place together. */
export function track(events: Events, chart: Chart, options: TrackOptions): Track {
  let withComping = 0;
  for (const comping of events.comping) withComping += comping;
  const metre = metreOf(chart, withComping > 0.05 * events.count);
  const [pin] = options.pins;
  const places = [
    ...usualPlaces(metre),
    ...(pin === undefined ? [] : pinnedPlaces(metre, pin, events.time[0]!)),
  ];
  const usual = pathFrom(events, metre, options, { places, ...usualPeriods(options.tempo) });
  const sought = pin === undefined && seemsElsewhere(events, metre, usual);
  const path = sought ? elsewhere(events, metre, options, usual) : usual;
  const stretches = sightingsOf(events, metre, path);
  const line = lineThrough(stretches);
  return {
    path,
    stretches,
    knots: knotsOf(stretches),
    line,
    constant: isConstant(stretches, line),
    metre,
    doubtful: sought,
  };
}

/** Nats of harmony beyond which another place in the form is looked into. */
const ELSEWHERE = 6;
/** Nats by which an unusual beginning must be better (beyond what its places cost). */
const CLEARLY = 3;

/** Events in which a take that began elsewhere has slipped to where its chords are. */
const OPENING = 60;
/** Nats for each event below which no beat was heard, so that no place in the form was either. */
const UNHEARD = -0.15;

/** A take that began elsewhere fits another place of the form, or was brought there by slips that nobody played. */
function seemsElsewhere(events: Events, metre: Metre, path: TrackedPath): boolean {
  if (path.score < UNHEARD * events.count) return false;
  return path.broken.subarray(0, OPENING).includes(1) || gainElsewhere(events, metre, path) > ELSEWHERE;
}

/** The path from an unusual beginning, where it explains the take better. The beat is known by now. */
function elsewhere(events: Events, metre: Metre, options: TrackOptions, usual: TrackedPath): TrackedPath {
  const period = usualPeriod(sightingsOf(events, metre, usual));
  if (!(period > 0.15 && period < 2)) return usual;
  const path = pathFrom(events, metre, options, {
    places: unusualPlaces(metre, events.stretchAt.length),
    periods: [0.94, 0.97, 1, 1.03, 1.06].map((f) => ({ seconds: period * f, cost: 0 })),
    periodSpread: 0.02,
  });
  return path.score > usual.score + CLEARLY ? introOrInside(events, metre, path) : usual;
}

/**
 * The last bars of a form, played before it by the comping hand alone, are an introduction; where the line plays as
 * well, the take began inside the form. Harmony cannot tell the two apart.
 */
function introOrInside(events: Events, metre: Metre, path: TrackedPath): TrackedPath {
  const form = events.stretchAt.length;
  const first = path.cells.find((cell) => cell !== SKIPPED) ?? 0;
  if (first < metre.bar || first < form - LONGEST_INTRO * metre.bar) return path;
  let opening = 0;
  while (opening < events.count && path.cells[opening]! < form - metre.bar) opening++;
  if (lineAlone(events, 0, opening) > 0.6 * lineAlone(events, opening, events.count)) return path;
  return { ...path, cells: path.cells.map((cell) => (cell === SKIPPED ? cell : cell - form)) };
}

/** Share of the events from one to another (not included) that are the line's alone. */
function lineAlone(events: Events, from: number, to: number): number {
  let alone = 0;
  for (let e = from; e < to; e++) if (events.comping[e] === 0) alone++;
  return alone / Math.max(1, to - from);
}

/** Median seconds of a quarter note from sighting to sighting a beat or more apart. */
function usualPeriod(stretches: readonly (readonly Sighting[])[]): number {
  const periods: number[] = [];
  for (const stretch of stretches) {
    let from = 0;
    for (let i = 1; i < stretch.length; i++) {
      const beats = stretch[i]!.place - stretch[from]!.place;
      if (beats < 1) continue;
      periods.push((stretch[i]!.seconds - stretch[from]!.seconds) / beats);
      from = i;
    }
  }
  return medianOf(periods);
}

function pathFrom(events: Events, metre: Metre, options: TrackOptions, start: TrackerStart): TrackedPath {
  const free = follow(events, metre, {
    start,
    freedom: { clock: 0.02, tempo: 0.012, slips: true },
    pins: options.pins,
    beam: BEAM,
  });
  return steadier(events, metre, options, start, free);
}

/**
 * The free path, or that of a beat that hardly moves where this explains the take better: a player with a click has
 * no other freedom, and with less freedom the off-beats cannot be taken for beats.
 */
function steadier(
  events: Events,
  metre: Metre,
  options: TrackOptions,
  { places }: TrackerStart,
  free: TrackedPath,
): TrackedPath {
  const sightings = sightingsOf(events, metre, free).flat();
  if (sightings.length < 8 || options.pins.length > 0) return free;
  const { start, period } = straightLine(sightings);
  if (!(period > 0.1 && period < 2)) return free;
  // Where half of the events lie far from any straight line, none need be tried.
  const beside = sightings.filter(
    ({ seconds, place }) => Math.abs(seconds - start - period * place) > 0.5 * period,
  );
  if (beside.length > sightings.length / 2) return free;
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

/** One line through all stretches; where slips have folded the form over itself, through the longest of them. */
function lineThrough(stretches: readonly (readonly Sighting[])[]): Track["line"] {
  const line = straightLine(stretches.flat());
  if (line.period > 0) return line;
  const length = (stretch: readonly Sighting[]) =>
    stretch.length === 0 ? 0 : stretch.at(-1)!.place - stretch[0]!.place;
  return straightLine(stretches.reduce((longest, one) => (length(one) > length(longest) ? one : longest)));
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
