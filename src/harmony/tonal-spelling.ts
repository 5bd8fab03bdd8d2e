/**
 * Spelling without chords: from the key signature, the notes around and the way that the line moves.
 *
 * Each note takes one of its places on the line of fifths. A path of places is the better, the nearer its notes lie
 * to the centre of the key and of what has just been played, the more faithful it is to a name once chosen, and the
 * more it writes half steps on neighbouring letters. The best path is sought with a beam, from left to right.
 * Sources: Temperley, The Cognition of Basic Musical Structures, 2001, chapter 5 (line of fifths, pitch variance and
 * voice-leading rules) [memory]; Meredith 2006 for judging a note by a window of what surrounds it [memory]. The
 * weights are our own, fitted to printed music; `npm run report -- spelling` shows how well they do, and how well such
 * a fit does on each score when that score had no part in it.
 */
import { nearestTo } from "../pitch/index.ts";

/** A note to be spelled. */
export interface Unspelled {
  /** MIDI number. */
  readonly pitch: number;
  /** Onset in quarter notes; never falling from note to note. */
  readonly at: number;
  /** The key signature in force, -7 (flats) to 7 (sharps). */
  readonly signature: number;
  /** Place on the line of fifths where it is already known (a chord names it), else null. */
  readonly place: number | null;
}

/**
 * Weights of the search. Their unit is one step of the line that is not on neighbouring letters: a whole step, or a
 * half step on letters further apart than two.
 */
export interface SpellingWeights {
  /** A step on the line of fifths away, squared, from the centre of what was played. */
  readonly centre: number;
  /** Quarter notes in which what was played fades to a third. */
  readonly fading: number;
  /** Giving another name to a pitch class just named. */
  readonly renaming: number;
  /** A half step on one letter: out of the key (C, C sharp), and away from a note out of the key. */
  readonly raisedStep: number;
  readonly brokenStep: number;
  /** Each step on the line of fifths beyond six between notes struck together: thirds before diminished fourths. */
  readonly clash: number;
}

/** Fitted to printed scores, from weights that favour nothing (`tests/harmony/spelling-fit.ts`). */
export const WEIGHTS: SpellingWeights = {
  centre: 0.05,
  fading: 5,
  renaming: 2,
  raisedStep: 0.5,
  brokenStep: 8 / 3,
  clash: 0.5,
};

/** What a step costs that is on letters too near or too far. */
const ODD_STEP = 1;
/** Middle of the seven naturals, counted from the signature. */
const KEY_CENTRE = 2;
/** How many notes the key counts for in the centre of what was played. [practice] */
const KEY_MASS = 10;

/** Notes further apart (quarter notes) are not heard as one step. */
const NEAR_TIME = 0.5;
/** How far back names are remembered: quarter notes, and notes. */
const MEMORY_TIME = 2.5;
const MEMORY_NOTES = 13;
/** Paths kept alive. */
const WIDTH = 6;
/** More places than are ever used, and all ways of naming six notes: paths with the same last six names are one. */
const NAMES = 64;
const TAIL = NAMES ** 6;
/** Steps on the line of fifths up to which notes struck together read well: all but diminished and augmented ones. */
const CONSONANT = 6;
/** A diatonic half step (E, F) and a chromatic one (F, F sharp) on the line of fifths. */
const DIATONIC = 5;
const CHROMATIC = 7;
const TWIN = 12;

/** A way of naming all notes so far. */
interface Path {
  readonly cost: number;
  /** Faded number of notes and sum of their places. */
  readonly mass: number;
  readonly sum: number;
  /** The last names in one number, to see that two paths have come together. */
  readonly tail: number;
  readonly last: Link | null;
}

/** The name of the note before, shared by all paths that branch off after it. */
interface Link {
  readonly place: number;
  readonly before: Link | null;
}

/**
 * Places on the line of fifths, parallel to `notes`. Notes must be in order of `at`; a note whose place is given
 * keeps it and counts for the others. Linear in the number of notes.
 */
export function spellTonally(notes: readonly Unspelled[], weights: SpellingWeights = WEIGHTS): number[] {
  let paths: readonly Path[] = [{ cost: 0, mass: 0, sum: 0, tail: 0, last: null }];
  let time = 0;
  notes.forEach((note, i) => {
    const fade = Math.exp((time - note.at) / weights.fading);
    time = note.at;
    const remembered = memoryOf(notes, i);
    const further: Path[] = [];
    for (const path of paths) goOn(path, note, fade, remembered, weights, further);
    paths = prune(further);
  });
  const places: number[] = [];
  for (let link = paths[0]!.last; link !== null; link = link.before) places.push(link.place);
  return places.reverse();
}

/** The notes that still count, nearest first. */
function memoryOf(notes: readonly Unspelled[], i: number): readonly Unspelled[] {
  const { at } = notes[i]!;
  return notes
    .slice(Math.max(0, i - MEMORY_NOTES), i)
    .filter((earlier) => at - earlier.at <= MEMORY_TIME)
    .reverse();
}

function goOn(
  path: Path,
  note: Unspelled,
  fade: number,
  remembered: readonly Unspelled[],
  weights: SpellingWeights,
  further: Path[],
): void {
  const middle = note.signature + KEY_CENTRE;
  const mass = path.mass * fade;
  const sum = path.sum * fade;
  const centre = (sum + KEY_MASS * middle) / (mass + KEY_MASS);
  const nearest = note.place ?? nearestTo(note.pitch % 12, middle);
  // The nearest name and its twin on the other side of the key's middle; names further off are never printed.
  const candidates =
    note.place === null ? [nearest, nearest > middle ? nearest - TWIN : nearest + TWIN] : [nearest];
  for (const place of candidates) {
    further.push({
      cost: path.cost + costOf(place, note, centre, remembered, weights, path.last),
      mass: mass + 1,
      sum: sum + place,
      tail: (path.tail * NAMES + place + NAMES / 2) % TAIL,
      last: { place, before: path.last },
    });
  }
}

function costOf(
  place: number,
  note: Unspelled,
  centre: number,
  remembered: readonly Unspelled[],
  weights: SpellingWeights,
  last: Link | null,
): number {
  let cost = weights.centre * (place - centre) ** 2;
  let link = last;
  for (const earlier of remembered) {
    const before = link!.place;
    const apart = Math.abs(place - before);
    link = link!.before;
    const age = note.at - earlier.at;
    const semitones = Math.abs(note.pitch - earlier.pitch);
    if (semitones % 12 === 0) {
      if (apart !== 0) cost += weights.renaming;
    } else if (age === 0) {
      cost += weights.clash * Math.max(0, apart - CONSONANT);
    } else if (age <= NEAR_TIME) {
      if (semitones === 1 && apart !== DIATONIC) cost += halfStep(apart, before, note.signature, weights);
      if (semitones === 2 && apart !== 2) cost += ODD_STEP;
    }
  }
  return cost;
}

/** The best paths, one for each way of naming the last notes. */
function prune(paths: Path[]): readonly Path[] {
  paths.sort((a, b) => a.cost - b.cost);
  const kept: Path[] = [];
  for (const path of paths) {
    if (kept.some((better) => better.tail === path.tail)) continue;
    kept.push(path);
    if (kept.length === WIDTH) break;
  }
  return kept;
}

/**
 * What a half step costs that is not on neighbouring letters. A note out of the key leans on the note after it, so
 * that leaving it on its own letter is the worse: D, D sharp, E rather than D, E flat, E.
 */
function halfStep(apart: number, from: number, signature: number, weights: SpellingWeights): number {
  if (apart === CHROMATIC) return isInKey(from, signature) ? weights.raisedStep : weights.brokenStep;
  return ODD_STEP;
}

function isInKey(place: number, signature: number): boolean {
  return place >= signature - 1 && place <= signature + 5;
}
