/** The moments and lengths of beats that a lattice tries: around one tempo, or on beats that are known. */
import type { LatticeGrid } from "./lattice-types.ts";
import { EARLY } from "./line-model.ts";

/**
 * Columns in a beat of the tempo in the middle, and how many of them a beat may be longer or shorter. Finer grids
 * (8, 12, 16 columns) put as many notes into their bars and take three to eight times as long; beats are moved to
 * where they are by `refineBeats`.
 */
const FINE = 6;
const REACH = 1;
/** From beat to beat a length goes half of the way back to the usual one. Now and then it goes anywhere. */
const RETURN = 0.5;
const ANYWHERE = 0.002;
/**
 * Columns by which it is more or less than that: while a tempo is sought, half a column, so that it is found from beside
 * it; about a tempo that is known, less. In the fitted half .58 of notes lie on their beats with the one, .66 with the
 * other.
 */
export const UNREST = { sought: 0.5, known: 0.4 } as const;

/** Seconds by which the columns lie beside the strokes, so that no rounding decides on which side of an edge one is. */
const BESIDE = 1e-5;

/** @param beat seconds of a beat in the middle */
export function freeGrid(beat: number, from: number, to: number, unrest: number): LatticeGrid {
  const cell = beat / FINE;
  const begin = from - 1.25 * beat - BESIDE;
  const columns = Math.ceil((to + 2.6 * beat - begin) / cell) + 1;
  const lengths = Array.from({ length: 2 * REACH + 1 }, (_, k) => FINE - REACH + k);
  return {
    times: Float64Array.from({ length: columns }, (_, c) => begin + c * cell),
    lengths,
    drift: driftOf(lengths, unrest),
    early: new Float64Array(columns).fill(EARLY * beat),
    firstUntil: Math.ceil((1.25 + EARLY) * FINE),
  };
}

function driftOf(lengths: readonly number[], unrest: number): Float64Array {
  const kinds = lengths.length;
  const drift = new Float64Array(kinds * kinds);
  lengths.forEach((before, b) => {
    const middle = FINE + RETURN * (before - FINE);
    const shares = lengths.map((after) => Math.exp(-0.5 * ((after - middle) / unrest) ** 2));
    const sum = shares.reduce((x, y) => x + y, 0);
    shares.forEach((share, a) => {
      drift[b * kinds + a] = Math.log((1 - ANYWHERE) * (share / sum) + ANYWHERE / kinds);
    });
  });
  return drift;
}

/** @param beats seconds of known beats, from a beat before the first stroke to two after the last */
export function knownGrid(beats: Float64Array): LatticeGrid {
  const early = beats.map((t, c) => EARLY * ((beats[c + 1] ?? t + (t - beats[c - 1]!)) - t));
  return { times: beats, lengths: [1], drift: new Float64Array(1), early, firstUntil: 3 };
}
