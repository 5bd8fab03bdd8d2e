/**
 * What lines do on beats and over chords, as tables of shares that were counted in improvised solos: the shape of the
 * tables, how a take's strokes are looked up in them, and the counting itself.
 */
import { FAMILIES, LEAD_BARS } from "./form-beats.ts";
import { FAR, WIDE } from "./line-features.ts";

/** Seconds of a beat in the middle of each class of tempo. */
const PACES = [0.22, 0.31, 0.44, 0.68, 1] as const;
/** Beats that are shorter are taken for beats of this length: what they hold was not counted. */
export const SHORTEST_COUNTED = PACES[0];
/** Strokes in a beat are told apart up to this number. */
export const MOST = 6;
/** Bins of the place in a beat; the beat begins `EARLY` of its length before its click. */
export const BINS = 16;
export const EARLY = 0.125;
/** Where in its chord and beat a note is struck: with the chord, in the first half of another beat, in a second half. */
const SPOTS = 3;
/** Share of the beat from which a note belongs to its second half. */
export const SECOND_HALF = 0.37;
/** Beats over which lines are counted by the bar: two bars of four, a power of two. */
export const PERIOD = 8;

export interface LineTables {
  /** Log share of each number of strokes in a beat: `[pace * (MOST + 1) + n]`. */
  readonly counts: readonly number[];
  /** Log density (against even) of the place of the k-th of n strokes: `[(pace * ORDERS + order(n, k)) * BINS + bin]`. */
  readonly places: readonly number[];
  /** Log ratio to 1/12: `[((family * SPOTS + spot) * 3 + leave) * 12 + interval]`. */
  readonly chord: readonly number[];
  /**
   * Log ratio of each kind of note on a beat of the bar against any beat, in bars of four: by the interval from the last
   * note, `[come * 4 + beat]`, and by how long it sounds, `[held * 4 + beat]`.
   */
  readonly come: readonly number[];
  readonly held: readonly number[];
  /** The same over two bars by the notes since its phrase began and until it ends, `[within * PERIOD + beat]`. */
  readonly within: readonly number[];
  /** Log share of the beat of the form in which solos begin, `BEGIN_FROM` to `BEGIN_TO`. */
  readonly begin: readonly number[];
  /**
   * Log share of the beats from a chorus's end to the end of the last note's beat, `END_FROM` to `END_TO`, of takes of
   * one chorus and, after them, of longer ones: who plays one leaves its last bars to others, who plays more ends with it.
   */
  readonly end: readonly number[];
}

const ORDERS = 11;

/** Row of the k-th (from 0) of n strokes; five and more share one row. */
export function orderOf(n: number, k: number): number {
  return n >= 5 ? 10 : (n * (n - 1)) / 2 + k;
}

/** Lower pace of the two between which a beat lies, and the share of the upper one. */
export function paceOf(seconds: number): { low: number; share: number } {
  let low = 0;
  while (low + 2 < PACES.length && PACES[low + 1]! <= seconds) low++;
  const [a, b] = [Math.log(PACES[low]!), Math.log(PACES[low + 1]!)];
  return { low, share: Math.max(0, Math.min(1, (Math.log(seconds) - a) / (b - a))) };
}

export function chordRow(family: number, spot: number, leave: number): number {
  return ((family * SPOTS + spot) * 3 + leave) * 12;
}

/** Beats before and after a chorus's end in which the last note is told apart. */
export const END_FROM = -28;
export const END_TO = 12;
/** Choruses from which a take is longer than one. */
const LONGER = 1.5;

/** Where the row of `LineTables.end` begins for a take of so many choruses. */
export function endRow(choruses: number): number {
  return choruses < LONGER ? 0 : END_TO - END_FROM + 1;
}

/** Beats of the form (0 the first) in which the first note is told apart; those before it are heard as an introduction. */
export const BEGIN_FROM = -4 * LEAD_BARS;
export const BEGIN_TO = 32;

/** Place in the beat, as kinds of notes are counted by it. */
function partOf(place: number): number {
  return place < 0.2 ? 0 : place < 0.45 ? 1 : 2;
}

/** Row of `LineTables.come` for a note: half steps from the last (see `Strokes.come`), share of the beat. */
export function comeRow(come: number, place: number): number {
  return come * 3 + partOf(place);
}

/** Row of `LineTables.held` for a note: beats for which it sounds, share of the beat. */
export function heldRow(beats: number, place: number): number {
  const held = beats < 0.35 ? 0 : beats < 0.6 ? 1 : beats < 1.1 ? 2 : 3;
  return held * 3 + partOf(place);
}

/** Row of `LineTables.within` for a note: notes of its phrase before it and after it, share of the beat. */
export function withinRow(begun: number, left: number, place: number): number {
  return (begun * (FAR + 1) + left) * 3 + partOf(place);
}

const COME_ROWS = 3 * (2 * WIDE + 2);
const HELD_ROWS = 3 * 4;
const WITHIN_ROWS = 3 * (FAR + 1) ** 2;

/** One true beat with the strokes in it, to be counted. */
export interface CountedBeat {
  readonly seconds: number;
  /** Places of the strokes as shares of the beat, -EARLY to 1 - EARLY. */
  readonly places: readonly number[];
}

/** One note over its true chord, to be counted. */
export interface CountedNote {
  readonly family: number;
  readonly spot: number;
  readonly leave: number;
  readonly interval: number;
  /** Beat of two bars of four beats, or -1 in other meters. */
  readonly beat: number;
  /** Rows of the tables of these names. */
  readonly come: number;
  readonly held: number;
  readonly within: number;
}

export interface CountedSolo {
  readonly beats: readonly CountedBeat[];
  readonly notes: readonly CountedNote[];
  /** Beat in which it begins (0 the first), and the beats from the nearest chorus's end to where its last note's ends. */
  readonly begin: number;
  readonly end: number;
  /** Choruses that it is long. */
  readonly choruses: number;
}

/** Counts solos into tables; what is seldom leans on what is often (a few invented counts of the coarser table). */
export function countTables(solos: readonly CountedSolo[]): LineTables {
  const beats = solos.flatMap((solo) => solo.beats);
  const notes = solos.flatMap((solo) => solo.notes);
  return {
    ...countRhythm(beats),
    chord: countChords(notes),
    come: countKinds(notes, COME_ROWS, 4, (note) => note.come),
    held: countKinds(notes, HELD_ROWS, 4, (note) => note.held),
    within: countKinds(notes, WITHIN_ROWS, PERIOD, (note) => note.within),
    begin: countBeginnings(solos.map(({ begin }) => begin)),
    end: [false, true].flatMap((longer) =>
      countEnds(solos.filter(({ choruses }) => choruses >= LONGER === longer).map(({ end }) => end)),
    ),
  };
}

function logShares(counts: readonly number[]): number[] {
  const sum = counts.reduce((a, b) => a + b, 0);
  return counts.map((count) => Math.log(count / sum));
}

function countRhythm(beats: readonly CountedBeat[]): Pick<LineTables, "counts" | "places"> {
  const counts = PACES.map(() => new Array<number>(MOST + 1).fill(2));
  const places = PACES.map(() => Array.from({ length: ORDERS }, () => new Array<number>(BINS).fill(0)));
  const all = Array.from({ length: ORDERS }, () => new Array<number>(BINS).fill(1));
  for (const beat of beats) {
    const { low, share } = paceOf(beat.seconds);
    const n = beat.places.length;
    for (const [pace, weight] of [
      [low, 1 - share],
      [low + 1, share],
    ] as const) {
      counts[pace]![Math.min(MOST, n)]! += weight;
      beat.places.forEach((place, k) => {
        const bin = Math.max(0, Math.min(BINS - 1, Math.floor((place + EARLY) * BINS)));
        places[pace]![orderOf(n, k)]![bin]! += weight;
        all[orderOf(n, k)]![bin]! += weight / 2;
      });
    }
  }
  return {
    counts: counts.flatMap(logShares),
    places: places.flatMap((rows) =>
      rows.flatMap((row, order) => {
        const usual = logShares(all[order]!).map(Math.exp);
        return logShares(row.map((count, bin) => count + 40 * usual[bin]!)).map(
          (log) => log + Math.log(BINS),
        );
      }),
    ),
  };
}

/** Invented counts by which a row of a family leans on all rows of it. */
const SPOTS_LEAN = 150;

function countChords(notes: readonly CountedNote[]): number[] {
  const rows = FAMILIES.length * SPOTS * 3;
  const fine = new Float64Array(rows * 12);
  const coarse = new Float64Array(FAMILIES.length * 12).fill(1);
  for (const { family, spot, leave, interval } of notes) {
    if (family < 0) continue;
    fine[chordRow(family, spot, leave) + interval]! += 1;
    coarse[family * 12 + interval]! += 1;
  }
  const result: number[] = [];
  for (let row = 0; row < rows; row++) {
    const family = Math.floor(row / (SPOTS * 3));
    const usual = coarse.subarray(family * 12, family * 12 + 12);
    const sum = usual.reduce((a, b) => a + b, 0);
    const counts = Array.from({ length: 12 }, (_, i) => fine[row * 12 + i]! + (SPOTS_LEAN * usual[i]!) / sum);
    result.push(...logShares(counts).map((log) => log + Math.log(12)));
  }
  return result;
}

/** Log ratio of kinds of notes on each beat of a period to that kind anywhere. */
function countKinds(
  notes: readonly CountedNote[],
  kinds: number,
  period: number,
  kindOf: (note: CountedNote) => number,
): number[] {
  const counts = Array.from({ length: kinds }, () => new Array<number>(period).fill(4));
  for (const note of notes) {
    if (note.beat >= 0) counts[kindOf(note)]![note.beat % period]! += 1;
  }
  const usual = logShares(
    Array.from({ length: period }, (_, beat) => counts.reduce((sum, row) => sum + row[beat]!, 0)),
  );
  return counts.flatMap((row) => logShares(row).map((log, beat) => log - usual[beat]!));
}

/** Beginnings far from the first bar are as rare as they are far: each bar more halves what nobody was counted for. */
function countBeginnings(beats: readonly number[]): number[] {
  const counted = lent(beats, BEGIN_FROM, BEGIN_TO);
  return logShares(
    counted.map((count, k) => {
      const bar = Math.floor((k + BEGIN_FROM) / 4);
      return count + 0.3 * 0.5 ** Math.max(1, -bar - 3, bar - 1);
    }),
  );
}

function countEnds(beats: readonly number[]): number[] {
  const counted = lent(beats, END_FROM, END_TO);
  // Who ends elsewhere is among those who do not end as they were counted.
  return logShares(counted.map((count) => count + 0.3));
}

/** Counts of each value; each lends an eighth to either neighbour, since so few were counted. */
function lent(values: readonly number[], from: number, to: number): number[] {
  const counts = new Array<number>(to - from + 1).fill(0);
  for (const value of values) {
    for (const [away, share] of [
      [-1, 1 / 8],
      [0, 3 / 4],
      [1, 1 / 8],
    ] as const) {
      const at = value + away - from;
      if (at >= 0 && at < counts.length) counts[at]! += share;
    }
  }
  return counts;
}
