/** How a line moves: the words that the rules of the line role are made of. Notes are given by their place in the line. */
import { mod12 } from "../pitch/index.ts";
import type { Line } from "./line.ts";
import type { Manner } from "./roles.ts";

/** What a rule finds. */
export interface Found {
  /** Place in the line of the note that it leads to, or null. */
  readonly target: number | null;
  readonly manner: Manner | null;
}

/** True for a root, third, fifth or seventh (or its stand-in) of the chord at the note's own onset. */
export function isChordTone(line: Line, i: number): boolean {
  return line.notes[i]!.sounding.chordTone;
}

/** Semitones from one note of the line to another. */
export function interval(line: Line, from: number, to: number): number {
  return line.notes[to]!.note.pitch - line.notes[from]!.note.pitch;
}

/** One or two semitones; anything wider is a leap. */
export function isStep(line: Line, from: number, to: number): boolean {
  const size = Math.abs(interval(line, from, to));
  return size === 1 || size === 2;
}

/** True when the line goes the same way from a to b as from b to c. */
export function sameDirection(line: Line, a: number, b: number, c: number): boolean {
  return Math.sign(interval(line, a, b)) === Math.sign(interval(line, b, c));
}

/** True when the line goes by step from `before` to the note and back to the same pitch. */
export function returnsByStep(line: Line, before: number | null, i: number, after: number): boolean {
  return before !== null && isStep(line, before, i) && interval(line, before, after) === 0;
}

/** True when the note belongs to the scale of a span (of the key for N.C.). */
export function inScale(line: Line, i: number, span: number): boolean {
  const { chord, scaleTones } = line.harmony.spans[span]!;
  const root = chord === null ? line.harmony.chart.key.tonicClass : chord.rootClass;
  return scaleTones.includes(mod12(line.notes[i]!.note.pitch - root));
}

/** A note so many times longer than another is stressed by its length, where there is no beat. [practice] */
const AGOGIC = 1.5;

/**
 * True when a note stands on a stronger place of the bar than another. In rubato, without places, a note is the
 * stronger when it is clearly the longer.
 */
export function isStronger(line: Line, i: number, than: number): boolean {
  const [a, b] = [line.notes[i]!, line.notes[than]!];
  if (a.note.beat === null) return a.note.duration >= AGOGIC * b.note.duration;
  return a.strength > b.strength;
}
