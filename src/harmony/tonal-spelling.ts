/**
 * Spelling without chords: from the key signature, the notes around and the way that the line moves.
 *
 * Each note takes one of its places on the line of fifths. A path of places is the better, the nearer its notes lie
 * to the key and to the centre of what has just been played, the more faithful it is to a name once chosen, and the
 * more it writes half steps on neighbouring letters. The best path is sought with a beam, from left to right.
 * Sources: Temperley, The Cognition of Basic Musical Structures, 2001, chapter 5 (line of fifths, pitch variance and
 * voice-leading rules) [memory]; Meredith 2006 for judging a note by a window of what surrounds it [memory]. The
 * weights below are our own, fitted to printed music; `npm run report -- spelling` prints how well they do.
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
  /** A half step on one letter, and on letters further off. */
  chromaticStep: 2.6,
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
const WIDTH = 8;
/** Two paths with the same last names are one. */
const SAME_TAIL = 6;
/** A step this long or longer is an augmented or diminished interval to the ear of a reader. */
const CONSONANT = 6;
const TWIN = 12;

interface Named {
  readonly pitch: number;
  readonly place: number;
  readonly at: number;
  readonly part: string;
}

interface Path {
  readonly cost: number;
  /** Faded number of notes and sum of their places. */
  readonly mass: number;
  readonly sum: number;
  readonly recent: readonly Named[];
  readonly last: Link | null;
}

interface Link {
  readonly place: number;
  readonly before: Link | null;
}

/**
 * Places on the line of fifths, parallel to `notes`. Notes must be in order of `at`; a note whose place is given
 * keeps it and counts for the others. Linear in the number of notes.
 */
export function spellTonally(notes: readonly Unspelled[]): number[] {
  let paths: Path[] = [{ cost: 0, mass: 0, sum: 0, recent: [], last: null }];
  let time = notes[0]?.at ?? 0;
  for (const note of notes) {
    const fade = Math.exp(-Math.max(0, note.at - time) / WEIGHTS.fading);
    time = note.at;
    paths = prune(paths.flatMap((path) => continuations(path, note, fade)));
  }
  const places: number[] = [];
  for (let link = paths[0]!.last; link !== null; link = link.before) places.push(link.place);
  return places.reverse();
}

function continuations(path: Path, note: Unspelled, fade: number): Path[] {
  const middle = note.signature + WEIGHTS.keyCentre;
  const mass = path.mass * fade;
  const sum = path.sum * fade;
  const centre = (sum + WEIGHTS.keyMass * middle) / (mass + WEIGHTS.keyMass);
  const recent = path.recent.filter((named) => note.at - named.at <= MEMORY_TIME).slice(1 - MEMORY_NOTES);
  return candidates(note, middle).map((place) => ({
    cost: path.cost + costOf(place, note, middle, centre, recent),
    mass: mass + 1,
    sum: sum + place,
    recent: [...recent, { pitch: note.pitch, place, at: note.at, part: note.part }],
    last: { place, before: path.last },
  }));
}

function candidates(note: Unspelled, middle: number): readonly number[] {
  if (note.place !== null) return [note.place];
  const nearest = nearestTo(note.pitch % 12, middle);
  return [nearest, nearest - TWIN, nearest + TWIN];
}

function costOf(
  place: number,
  note: Unspelled,
  middle: number,
  centre: number,
  recent: readonly Named[],
): number {
  let cost = WEIGHTS.key * Math.abs(place - middle) + WEIGHTS.centre * (place - centre) ** 2;
  for (const named of recent) {
    const age = note.at - named.at;
    const apart = Math.abs(place - named.place);
    const semitones = Math.abs(note.pitch - named.pitch);
    if (semitones % 12 === 0) {
      if (apart !== 0) cost += WEIGHTS.renaming * Math.exp(-age / WEIGHTS.renamingFades);
    } else if (age === 0) {
      cost += WEIGHTS.clash * Math.max(0, apart - CONSONANT);
    } else if (age <= NEAR_TIME && named.part === note.part) {
      if (semitones === 1 && apart !== 5) cost += apart === 7 ? WEIGHTS.chromaticStep : WEIGHTS.distantStep;
      if (semitones === 2 && apart !== 2) cost += WEIGHTS.oddWholeStep;
    }
  }
  return cost;
}

function prune(paths: Path[]): Path[] {
  paths.sort((a, b) => a.cost - b.cost);
  const kept: Path[] = [];
  const tails = new Set<string>();
  for (const path of paths) {
    const tail = path.recent
      .slice(-SAME_TAIL)
      .map((named) => named.place)
      .join();
    if (tails.has(tail)) continue;
    tails.add(tail);
    kept.push(path);
    if (kept.length === WIDTH) break;
  }
  return kept;
}
