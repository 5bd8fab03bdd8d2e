/** The solo as the rules of devices read it: single notes in order, each with its chord and its labels. */
import type { ChordSpan } from "../chart/types.ts";
import type { NoteLabel } from "../harmony/index.ts";
import { mod12 } from "../pitch/index.ts";
import type { PlacedNote } from "../take/index.ts";
import type { DeviceName } from "./names.ts";

export interface DeviceNote {
  readonly note: PlacedNote;
  readonly label: NoteLabel;
  readonly span: ChordSpan;
  /** Semitones above the root of the chord, 0 to 11; null where no chord sounds. */
  readonly above: number | null;
}

/** Places of a device in the line, both included. */
export interface Stretch {
  readonly name: DeviceName;
  readonly first: number;
  readonly last: number;
}

export type DeviceLine = readonly DeviceNote[];

/** The highest note of each moment, without printed grace notes that crowd a figure. */
export function deviceLine(
  notes: readonly PlacedNote[],
  labels: readonly NoteLabel[],
  spans: readonly ChordSpan[],
): DeviceLine {
  const line: DeviceNote[] = [];
  notes.forEach((note, i) => {
    if (!note.solo) return;
    const span = spans[note.span]!;
    const above = span.chord === null ? null : mod12(note.pitch - span.chord.rootClass);
    const made = { note, label: labels[i]!, span, above };
    const last = line.at(-1);
    if (last === undefined || note.onset - last.note.onset > TOGETHER) line.push(made);
    else if (note.pitch > last.note.pitch) line[line.length - 1] = made;
  });
  return line;
}

/** Seconds within which notes are one moment. [lit: Goebl 2001, memory] */
const TOGETHER = 0.03;

/** Longest way (quarter notes, in rubato seconds) from onset to onset inside a figure. [practice] */
const WOVEN_BEATS = 1;
const WOVEN_SECONDS = 0.6;

/** True when the note at `i` goes on to the next without a breath. */
export function goesOn(line: DeviceLine, i: number): boolean {
  const next = line[i + 1];
  return (
    next !== undefined && gap(line, i) <= (next.note.position === null ? WOVEN_SECONDS : WOVEN_BEATS) + 1e-6
  );
}

/** From the onset of the `i`-th note to the next: quarter notes, in rubato seconds. */
export function gap(line: DeviceLine, i: number): number {
  const [a, b] = [line[i]!.note, line[i + 1]!.note];
  return a.position === null ? b.onset - a.onset : b.position! - a.position;
}

/** Semitones from the `i`-th note to the next. */
export function move(line: DeviceLine, i: number): number {
  return line[i + 1]!.note.pitch - line[i]!.note.pitch;
}

/** True when all notes from `first` to `last` follow each other, under one and the same chord. */
export function isOneChord(line: DeviceLine, first: number, last: number): boolean {
  return (
    line[first]!.span.chord !== null &&
    isJoined(line, first, last) &&
    line.slice(first, last + 1).every(({ span }) => span.symbol === line[first]!.span.symbol)
  );
}

export function isJoined(line: DeviceLine, first: number, last: number): boolean {
  for (let i = first; i < last; i++) if (!goesOn(line, i)) return false;
  return last < line.length;
}

/** True when a note is no chord tone, tension or blue note of its chord, nor a tone of its scale. */
export function isOutside({ label }: DeviceNote): boolean {
  return label.role === "outside" || label.altered;
}
