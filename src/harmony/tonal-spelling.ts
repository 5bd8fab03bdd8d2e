/**
 * Spelling without chords: from the key signature, the notes around and the way that the line moves.
 *
 * Each note takes one of its places on the line of fifths. A path of places is the better, the nearer its notes lie
 * to the key and to the centre of what has just been played, the more faithful it is to a name once chosen, and the
 * more it writes half steps on neighbouring letters. The best path is sought with a beam, from left to right.
 * Sources: Temperley, The Cognition of Basic Musical Structures, 2001, chapter 5 (line of fifths, pitch variance and
 * voice-leading rules) [memory]; Meredith 2006 for judging a note by a window of what surrounds it [memory]. The
 * weights below are our own, fitted to the printed music on which `npm run report -- spelling` shows how well they do;
 * fitted to two thirds of it, they meet 98.0 % of the last third (the hardest score, an orchestral one without key, among
 * it).
 */
import { nearestTo } from "./names.ts";

/** A note to be spelled. */
export interface Unspelled {
  /** MIDI number. */
  readonly pitch: number;
  /** Onset in quarter notes; never falling from note to note. */
  readonly at: number;
  /** Notes of one part (or hand) form one line; any value that tells them apart. */
  readonly part: string;
  /** The key signature in force, -7 (flats) to 7 (sharps). */
  readonly signature: number;
  /** Place on the line of fifths where it is already known (a chord names it), else null. */
  readonly place: number | null;
}

/** Weights of the search; times in quarter notes, distances in steps on the line of fifths. */
const WEIGHTS = {
  /** Middle of a key's usual names, counted from its signature: in C the names from Eb to A# lie within reach. */
  keyCentre: 2.75,
  /** A step away from the key's middle. */
  key: 0.08,
  /** A step away, squared, from the centre of what was played. */
  centre: 0.033,
  /** How many notes the key counts for in that centre. */
  keyMass: 10,
  /** Time in which what was played fades to a third. */
  fading: 9,
  /** Giving another name to a pitch class just named. */
  renaming: 2.3,
  renamingFades: 8,
  /** A half step on one letter: out of the key (C, C sharp), away from a note out of the key; and on letters further off. */
  raisedStep: 2,
  brokenStep: 3,
  distantStep: 5.2,
  /** A whole step that is not on neighbouring letters. */
  oddWholeStep: 1,
  /** Each step beyond six between notes struck together: thirds before diminished fourths. */
  clash: 0.9,
} as const;

/** Notes further apart (quarter notes) are not heard as one step. */
const NEAR_TIME = 0.5;
/** How far back names are remembered: quarter notes, and notes. */
const MEMORY_TIME = 2.5;
const MEMORY_NOTES = 14;
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
export function spellTonally(notes: readonly Unspelled[]): number[] {
  let paths: readonly Path[] = [{ cost: 0, mass: 0, sum: 0, tail: 0, last: null }];
  let time = notes[0]?.at ?? 0;
  notes.forEach((note, i) => {
    const fade = Math.exp(-Math.max(0, note.at - time) / WEIGHTS.fading);
    time = note.at;
    // Where there is nothing to choose between, nothing needs to be weighed.
    const isSettled = paths.length === 1 && note.place !== null;
    const remembered = isSettled ? [] : memoryOf(notes, i);
    const further: Path[] = [];
    for (const path of paths) goOn(path, note, fade, remembered, further);
    paths = prune(further);
  });
  const places: number[] = [];
  for (let link = paths[0]!.last; link !== null; link = link.before) places.push(link.place);
  return places.reverse();
}

/** The notes that still count, nearest first. */
function memoryOf(notes: readonly Unspelled[], i: number): readonly Unspelled[] {
  const remembered: Unspelled[] = [];
  for (let at = i - 1; at >= 0 && remembered.length < MEMORY_NOTES - 1; at--) {
    if (notes[i]!.at - notes[at]!.at > MEMORY_TIME) break;
    remembered.push(notes[at]!);
  }
  return remembered;
}

function goOn(
  path: Path,
  note: Unspelled,
  fade: number,
  remembered: readonly Unspelled[],
  further: Path[],
): void {
  const middle = note.signature + WEIGHTS.keyCentre;
  const mass = path.mass * fade;
  const sum = path.sum * fade;
  const centre = (sum + WEIGHTS.keyMass * middle) / (mass + WEIGHTS.keyMass);
  const nearest = note.place ?? nearestTo(note.pitch % 12, middle);
  // The nearest name and its twin on the other side of the key's middle; names further off are never printed.
  const candidates =
    note.place === null ? [nearest, nearest > middle ? nearest - TWIN : nearest + TWIN] : [nearest];
  for (const place of candidates) {
    further.push({
      cost: path.cost + costOf(place, note, middle, centre, remembered, path.last),
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
  middle: number,
  centre: number,
  remembered: readonly Unspelled[],
  last: Link | null,
): number {
  let cost = WEIGHTS.key * Math.abs(place - middle) + WEIGHTS.centre * (place - centre) ** 2;
  let link = last;
  for (const earlier of remembered) {
    const before = link!.place;
    const apart = Math.abs(place - before);
    link = link!.before;
    const age = note.at - earlier.at;
    const semitones = Math.abs(note.pitch - earlier.pitch);
    if (semitones % 12 === 0) {
      if (apart !== 0) cost += WEIGHTS.renaming * Math.exp(-age / WEIGHTS.renamingFades);
    } else if (age === 0) {
      cost += WEIGHTS.clash * Math.max(0, apart - CONSONANT);
    } else if (age <= NEAR_TIME && earlier.part === note.part) {
      if (semitones === 1 && apart !== DIATONIC) cost += halfStep(apart, before, note.signature);
      if (semitones === 2 && apart !== 2) cost += WEIGHTS.oddWholeStep;
    }
  }
  return cost;
}

/** The best paths, one for each way of naming the last notes. */
function prune(paths: Path[]): readonly Path[] {
  if (paths.length === 1) return paths;
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
function halfStep(apart: number, from: number, signature: number): number {
  if (apart === CHROMATIC) return isInKey(from, signature) ? WEIGHTS.raisedStep : WEIGHTS.brokenStep;
  return WEIGHTS.distantStep;
}

function isInKey(place: number, signature: number): boolean {
  return place >= signature - 1 && place <= signature + 5;
}
