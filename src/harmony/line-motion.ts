/** How a line moves: the words that the rules of the line role are made of. Notes are given by their place in the line. */
import { aboveRoot } from "./degree.ts";
import { isSameChord, type JoinedLine } from "./joined-line.ts";
import type { Manner } from "./roles.ts";

/** What a rule finds. */
export interface Found {
  /** Place in the line of the note that it leads to, or null. */
  readonly target: number | null;
  readonly manner: Manner | null;
}

/** True for a root, third, fifth or seventh (or its stand-in) of the chord at the note's own onset. */
export function isChordTone(line: JoinedLine, i: number): boolean {
  return line.notes[i]!.sounding.chordTone;
}

/** Semitones from one note of the line to another. */
export function interval(line: JoinedLine, from: number, to: number): number {
  return line.notes[to]!.note.pitch - line.notes[from]!.note.pitch;
}

/**
 * One or two semitones, or the augmented second of the scale that both notes lie in (F to G sharp over E7 in A
 * minor) where the line goes through it by step; anything wider is a leap.
 */
export function isStep(line: JoinedLine, from: number, to: number): boolean {
  const size = Math.abs(interval(line, from, to));
  return (
    size === 1 ||
    size === 2 ||
    (size === 3 && isAugmentedSecond(line, from, to) && isScalewise(line, from, to))
  );
}

/** True when the line comes to `from` or goes on from `to` by step the same way: in a broken chord a third is a leap. */
function isScalewise(line: JoinedLine, from: number, to: number): boolean {
  const way = Math.sign(interval(line, from, to));
  const before = line.before[from] ?? null;
  const after = line.after[to] ?? null;
  const isPlain = (a: number, b: number) => [1, 2].includes(interval(line, a, b) * way);
  return (before !== null && isPlain(before, from)) || (after !== null && isPlain(to, after));
}

/** Scales of fewer tones leave steps out; only in one of seven are neighbours a step apart. */
const WHOLE_SCALE = 7;

/**
 * True when two notes three semitones apart are neighbours in the seven-tone scale of one and the same chord, as the
 * sixth and seventh degree of harmonic minor are; over a dominant that takes it, the flat ninth stands for the ninth.
 * Source: Kostka & Payne [memory].
 */
function isAugmentedSecond(line: JoinedLine, from: number, to: number): boolean {
  const { span } = line.notes[from]!.note;
  const { scaleTones } = line.harmony.spans[span]!;
  if (!isSameChord(line.harmony, span, line.notes[to]!.note.span)) return false;
  const { degree, altered } = line.notes[from]!.sounding;
  const other = line.notes[to]!.sounding;
  if (altered && degree === "b9") return other.degree === "3";
  if (other.altered && other.degree === "b9") return degree === "3";
  if (scaleTones.length !== WHOLE_SCALE || !inScale(line, from, span) || !inScale(line, to, span))
    return false;
  const low = Math.min(line.notes[from]!.note.pitch, line.notes[to]!.note.pitch);
  return [1, 2].every((between) => !isPitchInScale(line, low + between, span));
}

/** True when the line goes the same way from a to b as from b to c. */
export function sameDirection(line: JoinedLine, a: number, b: number, c: number): boolean {
  return Math.sign(interval(line, a, b)) === Math.sign(interval(line, b, c));
}

/** True when the line goes by step from `before` to the note and back to the same pitch. */
export function returnsByStep(line: JoinedLine, before: number | null, i: number, after: number): boolean {
  return before !== null && isStep(line, before, i) && interval(line, before, after) === 0;
}

/** True when the note belongs to the scale of a span (of the key for N.C.). */
export function inScale(line: JoinedLine, i: number, span: number): boolean {
  return isPitchInScale(line, line.notes[i]!.note.pitch, span);
}

function isPitchInScale(line: JoinedLine, pitch: number, span: number): boolean {
  const sounding = line.harmony.spans[span]!;
  return sounding.scaleTones.includes(aboveRoot(pitch, sounding));
}

/** True when two notes are tones of one chord and a leap apart, so that the line breaks the chord. */
export function isArpeggio(line: JoinedLine, from: number, to: number): boolean {
  return (
    isWithinChord(line, from) &&
    isWithinChord(line, to) &&
    isSameChord(line.harmony, line.notes[from]!.note.span, line.notes[to]!.note.span) &&
    Math.abs(interval(line, from, to)) > 2
  );
}

/** A chord tone, or the flat ninth that tops the arpeggio of a dominant: 3 5 b7 b9 is one chord. [practice] */
function isWithinChord(line: JoinedLine, i: number): boolean {
  const { note, sounding } = line.notes[i]!;
  const { chord } = line.harmony.spans[note.span]!;
  return sounding.chordTone || (sounding.degree === "b9" && chord?.quality === "dominant");
}

/** A note so many times longer than another is stressed by its length, where there is no beat. [practice] */
const AGOGIC = 1.5;

/**
 * True when a note stands on a stronger place of the bar than another. In rubato, without places, a note is the
 * stronger when it is clearly the longer.
 */
export function isStronger(line: JoinedLine, i: number, than: number): boolean {
  const [a, b] = [line.notes[i]!, line.notes[than]!];
  if (a.note.beat === null) return a.note.duration >= AGOGIC * b.note.duration;
  return a.strength > b.strength;
}

/** What turns around a pitch: the first and the second note of the turn, and the pitch come back to. */
export interface Turn {
  readonly first: number;
  readonly second: number;
  readonly target: number;
}

/**
 * The turn that a note belongs to: out to one side of a pitch by step, to its other side, and back to it. A return on
 * a stronger place than the start is the target of an enclosure, not a turn. Null where there is none.
 */
export function turnOf(line: JoinedLine, i: number): Turn | null {
  return turnFrom(line, i) ?? turnFrom(line, line.before[i] ?? null);
}

function turnFrom(line: JoinedLine, first: number | null): Turn | null {
  if (first === null) return null;
  const left = line.before[first] ?? null;
  const second = line.after[first] ?? null;
  const target = second === null ? null : (line.after[second] ?? null);
  if (left === null || second === null || target === null || interval(line, left, target) !== 0) return null;
  if (!isStep(line, left, first) || !isStep(line, second, target)) return null;
  if (sameDirection(line, left, first, target) || sameDirection(line, first, second, target)) return null;
  const [above, below] = [interval(line, left, first), interval(line, left, second)];
  return above * below < 0 && !isStronger(line, target, left) ? { first, second, target } : null;
}
