/** Devices that repeat a figure: side-slip, sequence, answering end; and the pedal. */
import { compoundStretches } from "../harmony/compound.ts";
import { mod12, stepOf } from "../pitch/index.ts";
import {
  type DeviceLine,
  gap,
  goesOn,
  isJoined,
  isOneChord,
  isOutside,
  move,
  type Stretch,
} from "./device-line.ts";
import { stretches } from "./outlines.ts";

/** Figures of so many notes are sought. */
const SHORTEST = 3;
const LONGEST = 8;

/** True when two figures of `size` notes have the same intervals in semitones and the same rhythm. */
function isSame(line: DeviceLine, a: number, b: number, size: number): boolean {
  for (let k = 0; k < size - 1; k++) {
    if (move(line, a + k) !== move(line, b + k) || !isSameGap(line, a + k, b + k)) return false;
  }
  return true;
}

const SAME_GAP = 0.1;
const isSameGap = (line: DeviceLine, a: number, b: number) =>
  Math.abs(gap(line, a) - gap(line, b)) < SAME_GAP;

/**
 * Side-slip: a figure of three notes or more a half step away from itself, right before or after it, in the same
 * rhythm; the one lies in the chord, of the other at least two thirds are foreign, and the line goes on by step. Or
 * six notes or more of a pentatonic a half step from the chord's own, most of them foreign, resolved by step into a
 * chord tone. A figure spans a third or more: a repeated note or a turn that shifts is chromatic motion. Source: Levine ("side-slipping") [memory].
 */
export function sideSlip(line: DeviceLine): Stretch[] {
  const found: Stretch[] = [];
  for (let first = 0; first + 2 * SHORTEST <= line.length; first++) {
    for (let size = LONGEST; size >= SHORTEST; size--) {
      const second = first + size;
      const last = second + size - 1;
      if (last >= line.length || !isJoined(line, first, last) || !isSame(line, first, second, size)) continue;
      if (Math.abs(line[second]!.note.pitch - line[first]!.note.pitch) !== 1) continue;
      if (compass(line, first, second - 1) < LEAST_COMPASS) continue;
      const [a, b] = [foreign(line, first, second - 1), foreign(line, second, last)];
      const [inside, outside] = a < b ? [a, b] : [b, a];
      if (inside > 0 || outside < Math.max(2, (2 * size) / 3)) continue;
      if (b > a && !(isJoined(line, last, last + 1) && Math.abs(move(line, last)) <= 2)) continue;
      found.push({ name: "side-slip", first, last });
      first = last;
      break;
    }
  }
  return [...found, ...slippedPentatonic(line)];
}

/** Semitones from the lowest to the highest note of a figure that is heard as one and not as a turn. */
const LEAST_COMPASS = 3;

function compass(line: DeviceLine, first: number, last: number): number {
  const pitches = line.slice(first, last + 1).map(({ note }) => note.pitch);
  return Math.max(...pitches) - Math.min(...pitches);
}

function foreign(line: DeviceLine, first: number, last: number): number {
  return line.slice(first, last + 1).filter(isOutside).length;
}

const MINOR_PENTATONIC: readonly number[] = [0, 3, 5, 7, 10];
const SLIPPED_LEAST = 6;

function slippedPentatonic(line: DeviceLine): Stretch[] {
  return stretches(line, SLIPPED_LEAST, (first, last) => {
    if (!isOneChord(line, first, last) || foreign(line, first, last) < SLIPPED_LEAST - 2) return false;
    const tones = line.slice(first, last + 1).map(({ above }) => above!);
    const slipped = [1, 11].some((by) => tones.every((tone) => MINOR_PENTATONIC.includes(mod12(tone - by))));
    if (!slipped || new Set(tones).size < 4 || !goesOn(line, last)) return false;
    const size = Math.abs(move(line, last));
    return size >= 1 && size <= 2 && line[last + 1]!.label.role !== "outside";
  }).map((found) => ({ name: "side-slip", ...found }));
}

/** Statements that make a sequence: the figure and two moves; of two-note figures twice as many. */
const STATEMENTS = 3;
const STATEMENTS_OF_PAIRS = 4;
/** Half steps by which a figure is moved at most: a fifth. [practice] */
const WIDEST_MOVE = 7;

/**
 * Sequence: a figure moved twice or more by the same step, in the same rhythm and the same intervals, by letter or by
 * half steps. It turns, so that a scale or a chromatic run is none. Source: Kostka & Payne [memory].
 */
export function sequence(line: DeviceLine): Stretch[] {
  const found: Stretch[] = [];
  for (let first = 0; first < line.length; first++) {
    const last = longestSequence(line, first);
    if (last === null) continue;
    found.push({ name: "sequence", first, last });
    first = last;
  }
  return found;
}

function longestSequence(line: DeviceLine, first: number): number | null {
  for (const size of [3, 4, 5, 6, 2]) {
    const least = size === 2 ? STATEMENTS_OF_PAIRS : STATEMENTS;
    if (!turns(line, first, size)) continue;
    for (const moved of [isMoved, isMovedExactly]) {
      let count = 1;
      while (moved(line, first, size, count)) count += 1;
      const last = first + size * count - 1;
      if (count >= least && isJoined(line, first, last)) return last;
    }
  }
  return null;
}

/** True when the `count`-th statement after the first is the figure, moved on by the step of the first move. */
function isMoved(line: DeviceLine, first: number, size: number, count: number): boolean {
  const from = first + size * (count - 1);
  const to = from + size;
  if (to + size > line.length) return false;
  const step = letters(line, first, first + size);
  if (step === 0 || Math.abs(step) > 4 || letters(line, from, to) !== step) return false;
  for (let k = 0; k < size; k++) {
    if (k < size - 1 && letters(line, from + k, from + k + 1) !== letters(line, to + k, to + k + 1))
      return false;
    if (k < size - 1 && !isSameGap(line, from + k, to + k)) return false;
    // By letters alone a figure may be bent; by more than a half step it is another one.
    if (k < size - 1 && Math.abs(move(line, from + k) - move(line, to + k)) > 1) return false;
  }
  return true;
}

/** The same by half steps, whatever letters it is written on: major thirds that fall by half steps. */
function isMovedExactly(line: DeviceLine, first: number, size: number, count: number): boolean {
  const from = first + size * (count - 1);
  const to = from + size;
  if (to + size > line.length) return false;
  const step = line[first + size]!.note.pitch - line[first]!.note.pitch;
  if (step === 0 || Math.abs(step) > WIDEST_MOVE) return false;
  return line[to]!.note.pitch - line[from]!.note.pitch === step && isSame(line, from, to, size);
}

/** The figure and the way into its next statement go in both directions. */
function turns(line: DeviceLine, first: number, size: number): boolean {
  if (first + size >= line.length) return false;
  const moves = Array.from({ length: size }, (_, k) => move(line, first + k));
  return moves.some((semitones) => semitones > 0) && moves.some((semitones) => semitones < 0);
}

/** Steps of the staff from one note to another, by their spelling. */
function letters(line: DeviceLine, from: number, to: number): number {
  const place = (at: number) => {
    const { spelling } = line[at]!.label;
    return stepOf(spelling) + 7 * Number(/-?\d+$/.exec(spelling)![0]);
  };
  return place(to) - place(from);
}

const LEAST_MOVES = 2;

/**
 * Pedal: one pitch returns at least three times in every other place while another line moves, twice at least: one
 * move alone is a tremolo that gives way. [practice]
 */
export function pedal(line: DeviceLine): Stretch[] {
  const voices = line.map(({ note }) => ({ note }));
  return compoundStretches(voices).flatMap(({ first, last }) => {
    const moves = (parity: number) => {
      let count = 0;
      for (let at = first + parity + 2; at <= last; at += 2)
        if (line[at]!.note.pitch !== line[at - 2]!.note.pitch) count += 1;
      return count;
    };
    const isPedal = [0, 1].some((parity) => moves(parity) === 0 && moves(1 - parity) >= LEAST_MOVES);
    return isPedal ? [{ name: "pedal" as const, first, last }] : [];
  });
}

/** Notes at the end of a phrase that answer. */
const END = 3;
const LEAST_PHRASE = 4;

/**
 * Answering end: a phrase ends with the same three notes in the same rhythm as the phrase before it, and does not
 * begin as that one did. [practice]
 */
export function answeringEnd(
  line: DeviceLine,
  phrases: readonly { readonly firstNote: string; readonly lastNote: string }[],
): Stretch[] {
  const placeOf = new Map(line.map(({ note }, at) => [note.id, at]));
  const found: Stretch[] = [];
  phrases.slice(1).forEach((phrase, k) => {
    const [a, b] = [phrases[k]!, phrase].map((one) => [
      placeOf.get(one.firstNote),
      placeOf.get(one.lastNote),
    ]);
    const [firstA, lastA, firstB, lastB] = [a![0], a![1], b![0], b![1]];
    if (firstA === undefined || lastA === undefined || firstB === undefined || lastB === undefined) return;
    if (lastA - firstA < LEAST_PHRASE - 1 || lastB - firstB < LEAST_PHRASE - 1) return;
    if (
      line[lastA]!.note.pitch !== line[lastB]!.note.pitch ||
      !isSame(line, lastA - END + 1, lastB - END + 1, END)
    )
      return;
    if (line[firstA]!.note.pitch === line[firstB]!.note.pitch && isSame(line, firstA, firstB, END)) return;
    found.push({ name: "answering end", first: lastB - END + 1, last: lastB });
  });
  return found;
}
