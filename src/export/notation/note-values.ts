import { type BeatGrid, nextBeat } from "./beat.ts";

/** A length as notation writes it; where no note value has that length, `type` is the nearest one, for the eye only. */
export interface WrittenLength {
  readonly ticks: number;
  readonly type: NoteType | null;
  readonly dots: number;
  /** So many in the time of so many plain values; null for a plain one. */
  readonly tuplet: Tuplet | null;
}

export interface Tuplet {
  readonly actual: number;
  readonly normal: number;
}

/** Divisions of the beat that have no plain values: triplets first, since most are. [practice] */
const TUPLETS: readonly Tuplet[] = [
  { actual: 3, normal: 2 },
  { actual: 5, normal: 4 },
  { actual: 7, normal: 4 },
  { actual: 9, normal: 8 },
];

/** From long to short, each half of the one before; MusicXML's names. */
export const NOTE_TYPES = [
  "breve",
  "whole",
  "half",
  "quarter",
  "eighth",
  "16th",
  "32nd",
  "64th",
  "128th",
] as const;

export type NoteType = (typeof NOTE_TYPES)[number];

/**
 * Spells a length that starts at `start` in its bar as one note or a chain of tied ones, so that beats stay visible:
 * within a beat any value; from beat to beat any value; off the beat up to a quarter that does not cover the middle
 * of the bar; everything else is divided at beats [practice].
 *
 * @param start Ticks from the bar line.
 * @param ticks At least 1; the note stays inside its bar.
 * @example // quarter ticks 12, from the "and" of 2, a half note: an eighth tied to a dotted quarter
 */
export function spellLength(start: number, ticks: number, grid: BeatGrid): WrittenLength[] {
  const written: WrittenLength[] = [];
  let at = start;
  let left = ticks;
  while (left > 0) {
    const whole = noteValue(left, grid.ticksPerQuarter);
    if (whole !== null && isReadable(at, whole, grid)) {
      written.push(whole);
      break;
    }
    const cut = nextBeat(grid, at);
    if (cut >= at + left || !Number.isInteger(cut)) {
      written.push(...chain(left, grid.ticksPerQuarter));
      break;
    }
    // From a beat on as much as one readable value holds; off the beat up to the beat.
    const piece = at % grid.beat === 0 ? longestFrom(at, left, grid) : cut - at;
    const value = noteValue(piece, grid.ticksPerQuarter);
    written.push(...(value === null ? chain(piece, grid.ticksPerQuarter) : [value]));
    at += piece;
    left -= piece;
  }
  return written;
}

/** The note value of a length, or null when there is none. */
function noteValue(ticks: number, ticksPerQuarter: number): WrittenLength | null {
  return plainValue(ticks, ticksPerQuarter) ?? tupletValue(ticks, ticksPerQuarter);
}

function plainValue(ticks: number, ticksPerQuarter: number): WrittenLength | null {
  let base = 8 * ticksPerQuarter;
  for (const type of NOTE_TYPES) {
    if (ticks === base) return { ticks, type, dots: 0, tuplet: null };
    if (2 * ticks === 3 * base) return { ticks, type, dots: 1, tuplet: null };
    if (4 * ticks === 7 * base) return { ticks, type, dots: 2, tuplet: null };
    base /= 2;
  }
  return null;
}

function tupletValue(ticks: number, ticksPerQuarter: number): WrittenLength | null {
  for (const tuplet of TUPLETS) {
    const value = plainValue((tuplet.actual * ticks) / tuplet.normal, ticksPerQuarter);
    if (value !== null && value.dots === 0) return { ...value, ticks, tuplet };
  }
  return null;
}

function isReadable(start: number, value: WrittenLength, grid: BeatGrid): boolean {
  const end = start + value.ticks;
  if (end <= nextBeat(grid, start)) return true;
  if (value.tuplet !== null || value.dots === 2) return false;
  if (start % grid.beat === 0) return true;
  const coversMiddle = grid.middle > 0 && start < grid.middle && end > grid.middle;
  return value.dots === 0 && value.ticks <= grid.ticksPerQuarter && !coversMiddle;
}

/** The longest readable value from a beat that ends on a beat; at least one beat. */
function longestFrom(start: number, left: number, grid: BeatGrid): number {
  for (let beats = Math.floor(left / grid.beat); beats > 1; beats--) {
    const value = noteValue(beats * grid.beat, grid.ticksPerQuarter);
    if (value !== null && isReadable(start, value, grid)) return value.ticks;
  }
  return Math.min(left, grid.beat);
}

/** A length without a value of its own as a sum of values, long ones first; what has no value at all stays whole. */
function chain(ticks: number, ticksPerQuarter: number): WrittenLength[] {
  const units = TUPLETS.map(({ actual, normal }) => (8 * ticksPerQuarter * normal) / actual);
  for (const unit of [8 * ticksPerQuarter, ...units]) {
    const values: WrittenLength[] = [];
    let left = ticks;
    for (let base = unit; left > 0 && base >= 1 && values.length < 6; base /= 2) {
      if (base > left || !Number.isInteger(base)) continue;
      const value = noteValue(base, ticksPerQuarter);
      if (value === null) break;
      values.push(value);
      left -= base;
    }
    if (left === 0) return values;
  }
  const nearest = 3 - Math.round(Math.log2(ticks / ticksPerQuarter));
  const type = NOTE_TYPES[Math.max(0, Math.min(NOTE_TYPES.length - 1, nearest))]!;
  return [{ ticks, type, dots: 0, tuplet: null }];
}
