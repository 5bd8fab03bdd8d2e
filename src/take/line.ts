import { STRUCK_TOGETHER } from "./together.ts";

/** What a note must have to stand in a line: MIDI number, seconds. */
export interface LineMember {
  readonly pitch: number;
  readonly onset: number;
  readonly duration: number;
}

/** One step of the line: a single note, or the notes of a double stop struck together, told by the highest. */
export interface LineNote<T extends LineMember> {
  /** The highest of the notes struck together. */
  readonly note: T;
  /** Index of the first and of the last of them in the notes that were given. */
  readonly first: number;
  readonly last: number;
  /** Seconds: when it starts, and when the last of its keys is let go. */
  readonly onset: number;
  readonly end: number;
}

/** A line in flat columns, for lines of millions of notes; all as long as the line has steps. */
export interface LineColumns {
  /** Index of the highest note of each step, and of its first and last, in the notes that were given. */
  readonly highest: Int32Array;
  readonly first: Int32Array;
  readonly last: Int32Array;
  /** Seconds: when the last key of the step is let go. */
  readonly end: Float64Array;
}

/**
 * The line that the ear follows: notes struck together become one step. A note that is let go as the next one
 * starts is a step of its own however short it is, so that graces and slides are kept.
 *
 * @param notes in time order
 */
export function melodicLine<T extends LineMember>(notes: readonly T[]): LineNote<T>[] {
  const line: LineNote<T>[] = [];
  let open: Mutable<LineNote<T>> | null = null;
  for (let i = 0; i < notes.length; i++) {
    const note = notes[i]!;
    const release = note.onset + note.duration;
    if (open !== null && belongs(note, open.onset, open.end, open.note.duration)) {
      if (note.pitch > open.note.pitch) open.note = note;
      open.last = i;
      open.end = Math.max(open.end, release);
    } else {
      open = { note, first: i, last: i, onset: note.onset, end: release };
      line.push(open);
    }
  }
  return line;
}

type Mutable<T> = { -readonly [K in keyof T]: T[K] };

/** True for a note that is struck with a step, and not as its keys are let go. */
function belongs(note: LineMember, onset: number, end: number, duration: number): boolean {
  return note.onset - onset <= STRUCK_TOGETHER && end - note.onset > Math.min(duration, note.duration) / 2;
}

/** The same line as `melodicLine`, in columns. */
export function lineColumns(notes: readonly LineMember[]): LineColumns {
  const highest = new Int32Array(notes.length);
  const first = new Int32Array(notes.length);
  const last = new Int32Array(notes.length);
  const end = new Float64Array(notes.length);
  let step = -1;
  for (let i = 0; i < notes.length; i++) {
    const note = notes[i]!;
    const release = note.onset + note.duration;
    if (step >= 0 && belongs(note, notes[first[step]!]!.onset, end[step]!, notes[highest[step]!]!.duration)) {
      if (note.pitch > notes[highest[step]!]!.pitch) highest[step] = i;
      last[step] = i;
      end[step] = Math.max(end[step]!, release);
    } else {
      step++;
      highest[step] = i;
      first[step] = i;
      last[step] = i;
      end[step] = release;
    }
  }
  const steps = step + 1;
  return {
    highest: highest.subarray(0, steps),
    first: first.subarray(0, steps),
    last: last.subarray(0, steps),
    end: end.subarray(0, steps),
  };
}
