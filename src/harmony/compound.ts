/**
 * Two lines in one: a pedal, one pitch struck in every other place while another line moves, and a compound line that
 * alternates between two registers. The ear follows each by itself, and so do the labels. [practice; Bregman, Auditory
 * Scene Analysis, 1990, for the splitting of alternating registers, memory]
 */
import type { LineNote } from "./joined-line.ts";

/** A stretch of a line, from `first` to `last` (places), whose even and odd places are two voices. */
export interface Compound {
  readonly first: number;
  readonly last: number;
}

/** At least so many notes alternate: three of either voice. [practice] */
const LEAST = 6;
/** Semitones between the voices: beyond a step beside a pedal, a fourth and more where both voices move. [practice] */
const FROM_PEDAL = 3;
const APART = 5;
/** Semitones between neighbours of one voice. */
const STEP = 2;
/** Quarter notes from note to note, so that the two are heard as woven into one. [practice] */
const NEAR_BEATS = 1;
const NEAR_SECONDS = 0.6;

/** Stretches of two voices in a line of single notes, in order and without overlap. Linear. */
export function compoundStretches(line: readonly Pick<LineNote, "note">[]): Compound[] {
  const found: Compound[] = [];
  let first = 0;
  while (first + LEAST <= line.length) {
    // Told apart before anything is weighed: few lines come back at once.
    if (!mayAlternate(line, first)) {
      first += 1;
      continue;
    }
    const last = reach(line, first);
    if (last - first + 1 >= LEAST && moves(line, first, last)) {
      found.push({ first, last });
      first = last;
    } else {
      first += 1;
    }
  }
  return found;
}

/** True where three notes go far to and back, as far as a pedal asks at the least. */
function mayAlternate(line: readonly Pick<LineNote, "note">[], first: number): boolean {
  const up = line[first + 1]!.note.pitch - line[first]!.note.pitch;
  if (Math.abs(up) < FROM_PEDAL) return false;
  const down = line[first + 2]!.note.pitch - line[first + 1]!.note.pitch;
  return Math.abs(down) >= FROM_PEDAL && up * down < 0 && Math.abs(up + down) <= STEP;
}

/** The last place up to which the line alternates from `first` on. */
function reach(line: readonly Pick<LineNote, "note">[], first: number): number {
  const pedal = [first, first + 1].find((at) => pitchAt(line, at) === pitchAt(line, at + 2));
  const apart = pedal === undefined ? APART : FROM_PEDAL;
  const pitch = pedal === undefined ? null : pitchAt(line, pedal);
  let at = first;
  while (at + 1 < line.length && alternates(line, first, at, apart)) {
    if (pitch !== null && (at + 1 - pedal!) % 2 === 0 && pitchAt(line, at + 1) !== pitch) break;
    at += 1;
  }
  return at;
}

/** True when the note after `at` is far from it, on the other side than before, and a step from the one two before. */
function alternates(
  line: readonly Pick<LineNote, "note">[],
  first: number,
  at: number,
  apart: number,
): boolean {
  const leap = pitchAt(line, at + 1) - pitchAt(line, at);
  if (Math.abs(leap) < apart || !isNear(line[at]!, line[at + 1]!)) return false;
  if (at === first) return true;
  const before = pitchAt(line, at) - pitchAt(line, at - 1);
  return leap * before < 0 && Math.abs(pitchAt(line, at + 1) - pitchAt(line, at - 1)) <= STEP;
}

/** True when at least one of the two voices changes its pitch: a tremolo is one sound, not two lines. */
function moves(line: readonly Pick<LineNote, "note">[], first: number, last: number): boolean {
  for (let at = first + 2; at <= last; at++) {
    if (pitchAt(line, at) !== pitchAt(line, at - 2)) return true;
  }
  return false;
}

function isNear({ note: a }: Pick<LineNote, "note">, { note: b }: Pick<LineNote, "note">): boolean {
  if (a.position === null) return b.onset - a.onset <= NEAR_SECONDS;
  return b.position! - a.position <= NEAR_BEATS;
}

function pitchAt(line: readonly Pick<LineNote, "note">[], at: number): number {
  return line[at]?.note.pitch ?? Number.NaN;
}

/**
 * The notes of one of the two voices. Each is taken to last to the next of its voice: the other voice's note that
 * comes between is no rest.
 */
export function voiceOf(line: readonly LineNote[], { first, last }: Compound, parity: 0 | 1): LineNote[] {
  const places: number[] = [];
  for (let at = first + parity; at <= last; at += 2) places.push(at);
  return places.map((at, i) => {
    const here = line[at]!;
    const next = line[places[i + 1] ?? at + 1];
    return next === undefined ? here : { ...here, note: lastingTo(here, next) };
  });
}

function lastingTo({ note }: LineNote, { note: next }: LineNote): LineNote["note"] {
  const beats = note.position === null ? note.beats : Math.max(note.beats!, next.position! - note.position);
  return { ...note, beats, duration: Math.max(note.duration, next.onset - note.onset) };
}
