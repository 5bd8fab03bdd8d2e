/**
 * What a take's strokes say before any beat is known: who strikes, how each note of the line is left, where the line
 * breathes. Times are weighed against the take's own median step from note to note, so that a take played faster or
 * slower, later or an octave higher has the same features.
 */
import { median } from "d3-array";
import type { Note } from "../../take/index.ts";
import type { NoteHand } from "../types.ts";

/** Strokes within this time (seconds) of one hand are one: chords are spread by less. */
const TOGETHER = 0.045;
/** Rest after a note, in median steps, from which the line is heard to pause, and to breathe. */
const PAUSE = 1;
const BREATH = 2;

/** Strokes of both hands in order of time; all columns of one length. */
export interface Strokes {
  readonly count: number;
  /** Seconds. */
  readonly time: Float64Array;
  /** 1 for the line, 0 for the other hand. */
  readonly line: Uint8Array;
  /** How a note of the line goes on: 0 by step, 1 by leap or again, 2 before a rest. */
  readonly leave: Uint8Array;
  /** 1 where a phrase of the line begins, and where one ends. */
  readonly first: Uint8Array;
  readonly last: Uint8Array;
  /** Seconds since the stroke of the line before, and to the next; infinite where there is none. */
  readonly since: Float64Array;
  readonly until: Float64Array;
  /** 1 for a peak of the line, 2 for a valley. */
  readonly turn: Uint8Array;
  /** How wide the step to a note of the line was: 0 none, 1 up to two half steps, 2 up to five, 3 wider. */
  readonly width: Uint8Array;
  /** Indices of the stroke's notes in the take. */
  readonly members: readonly (readonly number[])[];
  /** Median seconds from one stroke of the line to the next. */
  readonly step: number;
}

/** @param notes sorted by onset; `hands` runs parallel to them */
export function strokesOf(notes: readonly Note[], hands: readonly NoteHand[]): Strokes {
  const groups: { time: number; line: boolean; members: number[] }[] = [];
  const open: (number | undefined)[] = [undefined, undefined];
  notes.forEach((note, i) => {
    const who = hands[i]!.solo ? 1 : 0;
    const group = open[who] === undefined ? undefined : groups[open[who]!];
    if (group !== undefined && note.onset - group.time <= TOGETHER) {
      group.members.push(i);
      return;
    }
    open[who] = groups.length;
    groups.push({ time: note.onset, line: who === 1, members: [i] });
  });
  const n = groups.length;
  const strokes = {
    count: n,
    time: Float64Array.from(groups, (group) => group.time),
    line: Uint8Array.from(groups, (group) => (group.line ? 1 : 0)),
    leave: new Uint8Array(n),
    first: new Uint8Array(n),
    last: new Uint8Array(n),
    since: new Float64Array(n).fill(Number.POSITIVE_INFINITY),
    until: new Float64Array(n).fill(Number.POSITIVE_INFINITY),
    turn: new Uint8Array(n),
    width: new Uint8Array(n),
    members: groups.map((group) => group.members),
    step: 0.25,
  };
  const line = groups.map((_, g) => g).filter((g) => groups[g]!.line);
  const steps = line.slice(1).map((g, k) => groups[g]!.time - groups[line[k]!]!.time);
  // A long rest is no step; without any step a usual eighth note stands for it.
  const step = median(steps) ?? 0.25;
  let fresh = 1;
  const top = (g: number) => notes[groups[g]!.members.at(-1)!]!;
  line.forEach((g, k) => {
    const here = top(g);
    const [before, next] = [line[k - 1], line[k + 1]];
    strokes.first[g] = fresh;
    if (before !== undefined) {
      strokes.since[g] = groups[g]!.time - groups[before]!.time;
      strokes.width[g] = widthOf(Math.abs(here.pitch - top(before).pitch));
    }
    if (next === undefined) {
      strokes.leave[g] = 2;
      strokes.last[g] = 1;
      return;
    }
    const after = top(next);
    const ioi = groups[next]!.time - groups[g]!.time;
    strokes.until[g] = ioi;
    if (before !== undefined) {
      const [from, to] = [here.pitch - top(before).pitch, here.pitch - after.pitch];
      strokes.turn[g] = from > 0 && to > 0 ? 1 : from < 0 && to < 0 ? 2 : 0;
    }
    const rest = ioi - Math.min(here.duration, ioi);
    fresh = rest > BREATH * step ? 1 : 0;
    strokes.last[g] = fresh;
    const interval = Math.abs(after.pitch - here.pitch);
    strokes.leave[g] = rest > PAUSE * step ? 2 : interval === 1 || interval === 2 ? 0 : 1;
  });
  return { ...strokes, step };
}

function widthOf(semitones: number): number {
  return semitones === 0 ? 0 : semitones <= 2 ? 1 : semitones <= 5 ? 2 : 3;
}
