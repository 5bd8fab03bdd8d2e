/**
 * Which place of the beat a performed onset stands for. The grid of a beat is chosen by how well it explains the
 * onsets in it: eighths (swung as this take swings them), triplets, or sixteenths. A swung off-beat stands for
 * the ".5" that a musician writes, and is early or late against the place where this take's off-beats fall, not
 * against the middle of the beat: swing is no lateness.
 */
import { median } from "d3-array";
import { ONE_STROKE } from "../take/index.ts";

/** An onset's place: in beats from the beat's start, as written and as this take's time feel plays it. */
export interface GridPlace {
  readonly written: number;
  readonly played: number;
}

interface BeatGrid {
  readonly places: readonly GridPlace[];
  /** What the choice of this grid costs against eighths, in nats [practice: eighths are by far the commonest]. */
  readonly cost: number;
}

/**
 * Snaps onsets of one line to the grid.
 *
 * @param phases positions in pulses (quarter notes; eighths in compound meters), rising
 * @param seconds the same onsets in seconds, rising
 * @param pulse seconds of a pulse at an onset
 * @param swing place of the off-beat at an onset, as a share of the beat, .5 to .8; null for grids without swing
 * @returns written and played place of each onset in pulses
 */
export function snapOnsets(
  phases: readonly number[],
  seconds: readonly number[],
  pulse: (index: number) => number,
  swing: ((index: number) => number) | null,
): GridPlace[] {
  const places = new Array<GridPlace>(phases.length);
  let start = 0;
  while (start < phases.length) {
    const beat = Math.floor(phases[start]!);
    let end = start + 1;
    while (end < phases.length && Math.floor(phases[end]!) === beat) end++;
    const spread = 0.03 + 0.02 / pulse(start);
    const grids = swing === null ? COMPOUND_GRIDS : simpleGrids(swing(start));
    let best: { cost: number; choice: GridPlace[] } | null = null;
    for (const grid of grids) {
      const fit = fitGrid(phases, seconds, start, end, beat, grid, spread);
      if (best === null || fit.cost < best.cost) best = fit;
    }
    for (let i = start; i < end; i++) {
      const place = best!.choice[i - start]!;
      places[i] = { written: beat + place.written, played: beat + place.played };
    }
    start = end;
  }
  return places;
}

const third = (n: number): GridPlace => ({ written: n / 3, played: n / 3 });
const quarter = (n: number): GridPlace => ({ written: n / 4, played: n / 4 });

const COMPOUND_GRIDS: readonly BeatGrid[] = [
  { places: [0, 1].map((n) => ({ written: n, played: n })), cost: 0 },
  { places: [0, 2, 4].map(quarter), cost: 1.5 },
];

function simpleGrids(swing: number): readonly BeatGrid[] {
  const eighths = [quarter(0), { written: 0.5, played: swing }, quarter(4)];
  return [
    { places: eighths, cost: 0 },
    { places: [0, 1, 2, 3].map(third), cost: 2 },
    { places: [0, 1, 2, 3, 4].map(quarter), cost: 2.5 },
  ];
}

function fitGrid(
  phases: readonly number[],
  seconds: readonly number[],
  start: number,
  end: number,
  beat: number,
  grid: BeatGrid,
  spread: number,
): { cost: number; choice: GridPlace[] } {
  let cost = grid.cost;
  const choice: GridPlace[] = [];
  for (let i = start; i < end; i++) {
    const phase = phases[i]! - beat;
    let nearest = grid.places[0]!;
    for (const place of grid.places) {
      if (Math.abs(phase - place.played) < Math.abs(phase - nearest.played)) nearest = place;
    }
    const before = choice.at(-1);
    const oneStroke = i > start && seconds[i]! - seconds[i - 1]! < ONE_STROKE;
    if (oneStroke && before !== undefined) {
      choice.push(before);
      continue;
    }
    // Off-beats move more than beats do.
    const width = nearest.written % 1 === 0 ? spread : spread * 1.3;
    cost += Math.min(12, (phase - nearest.played) ** 2 / (2 * width * width));
    // Two strokes of one line on one place: this grid is too coarse for the beat.
    if (before === nearest) cost += 4;
    choice.push(nearest);
  }
  return { cost, choice };
}

/** The take's off-beats: their place in the beat over the whole take and around each beat. */
export interface SwingFeel {
  /** Median place of the off-beat as a share of the beat; .5 is straight, 2/3 is 2:1. */
  readonly median: number;
  at(beat: number): number;
}

/**
 * Measures where a take's off-beats fall: the median over beats with one onset between the beats, moved towards
 * the median of the eight beats around where enough were played there.
 *
 * @param phases onsets in quarter-note beats, rising
 */
export function swingFeel(phases: readonly number[]): SwingFeel {
  const found: { beat: number; place: number }[] = [];
  for (let i = 0; i < phases.length; i++) {
    const beat = Math.floor(phases[i]!);
    const place = phases[i]! - beat;
    if (place < 0.4 || place > 0.8) continue;
    const before = phases[i - 1] ?? Number.NEGATIVE_INFINITY;
    const after = phases[i + 1] ?? Number.POSITIVE_INFINITY;
    // Neighbours inside the beat make it a triplet or sixteenths.
    if (before > beat + 0.15 || after < beat + 0.85) continue;
    found.push({ beat, place });
  }
  const middle = median(found, (f) => f.place) ?? 0.5;
  const trust = found.length / (found.length + 2);
  const take = 0.55 + (middle - 0.55) * trust;
  return {
    median: take,
    at(beat) {
      const near = found.slice(lowerBound(found, beat - 8), lowerBound(found, beat + 9)).map((f) => f.place);
      const local = median(near);
      return local === undefined ? take : take + (local - take) * (near.length / (near.length + 6));
    },
  };
}

function lowerBound(found: readonly { beat: number }[], beat: number): number {
  let low = 0;
  let high = found.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (found[middle]!.beat < beat) low = middle + 1;
    else high = middle;
  }
  return low;
}
