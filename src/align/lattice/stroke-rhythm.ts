/** How many strokes a beat has and where they fall in it: by the counted tables for the line, by practice for chords. */
import type { Strokes } from "./line-features.ts";
import { BINS, EARLY, type LineTables, MOST, orderOf, paceOf } from "./line-model.ts";

/** Powers to which the rhythm of the line, and that of the other hand, is taken. */
export interface RhythmWeights {
  readonly rhythm: number;
  readonly struck: number;
}

/** Log density of the strokes from `from` to `to` (not included) in a beat that begins at `start`, a nat a second. */
export type StrokeRhythm = (from: number, to: number, start: number, seconds: number) => number;

/**
 * Comping strokes in a beat and where they fall: mostly with the beat, next in its second half [practice]. Shares of
 * none, one, two, three and more strokes in a beat, and of strokes on the beat, off it, anywhere.
 */
const COMPING_COUNTS = [0.42, 0.38, 0.15, 0.04, 0.01].map(Math.log);
const COMPING_ON = 0.62;
const COMPING_OFF = 0.23;

/** Log density of strokes in a beat. */
export function strokeRhythm(strokes: Strokes, tables: LineTables, weights: RhythmWeights): StrokeRhythm {
  const [bins, early, most] = [BINS, EARLY, MOST];
  const withComping = strokes.line.includes(0);
  const withLine = strokes.line.includes(1);
  // A lattice asks for the same few lengths again and again.
  const paces = new Map<number, { low: number; share: number; log: number }>();
  const paceAt = (seconds: number) => {
    const key = Math.round(seconds * 1e6);
    let pace = paces.get(key);
    if (pace === undefined) {
      pace = { ...paceOf(seconds), log: Math.log(seconds) };
      paces.set(key, pace);
    }
    return pace;
  };
  return (from, to, start, seconds) => {
    let n = 0;
    for (let s = from; s < to; s++) n += strokes.line[s]!;
    const comping = to - from - n;
    const { low, share, log } = paceAt(seconds);
    let line = -n * log;
    let struck = -comping * log;
    if (withLine) {
      const at = low * (most + 1) + Math.min(most, n);
      const [slow, fast] = [tables.counts[at]!, tables.counts[at + most + 1]!];
      line += slow + share * (fast - slow);
    }
    if (withComping) struck += COMPING_COUNTS[Math.min(4, comping)]!;
    let k = 0;
    for (let s = from; s < to; s++) {
      const place = (strokes.time[s]! - start) / seconds;
      if (strokes.line[s] === 1) {
        const bin = Math.max(0, Math.min(bins - 1, Math.floor((place + early) * bins)));
        const at = low * bins * 11 + orderOf(n, k++) * bins + bin;
        const slow = tables.places[at]!;
        line += slow + share * (tables.places[at + bins * 11]! - slow);
      } else {
        struck += compingPlace(place, seconds);
      }
    }
    return weights.rhythm * line + weights.struck * struck;
  };
}

function compingPlace(place: number, seconds: number): number {
  const on = bell(place, 0.03 + 0.015 / seconds);
  return Math.log(COMPING_ON * on + COMPING_OFF * bell(place - 0.6, 0.09) + (1 - COMPING_ON - COMPING_OFF));
}

function bell(away: number, spread: number): number {
  const z = away / spread;
  return (0.4 / spread) * Math.exp(-0.5 * z * z);
}
