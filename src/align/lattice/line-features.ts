/**
 * What a take's strokes say before any beat is known: who strikes, how each note of the line is left, where the line
 * breathes. Times are weighed against the take's own median step from note to note, so that a take played faster or
 * slower, later or an octave higher has the same features.
 */
import { median } from "d3-array";
import type { Note, NoteHand } from "../../take/index.ts";

/** Strokes within this time (seconds) of one hand are one: chords are spread by less. */
const TOGETHER = 0.045;
/** Rest after a note, in median steps, from which the line is heard to pause, and to breathe. */
const PAUSE = 1;
const BREATH = 2;

/** Half steps from which intervals are one. */
export const WIDE = 7;
/** Notes of a phrase that are told apart from its first, and from its last. */
export const FAR = 4;

/** Strokes of both hands in order of time; all columns of one length. */
export interface Strokes {
  readonly count: number;
  /** Seconds. */
  readonly time: Float64Array;
  /** 1 for the line, 0 for the other hand. */
  readonly line: Uint8Array;
  /** How a note of the line goes on: 0 by step, 1 by leap or again, 2 before a rest. */
  readonly leave: Uint8Array;
  /** Half steps up to a note of the line from the one before: `WIDE` and more down is 0, none `2 * WIDE + 1`. */
  readonly come: Uint8Array;
  /** Seconds for which a note of the line sounds. */
  readonly held: Float64Array;
  /** Notes of its phrase before a note of the line, and after it; `FAR` stands for more. */
  readonly begun: Uint8Array;
  readonly left: Uint8Array;
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
    come: new Uint8Array(n),
    held: new Float64Array(n),
    begun: new Uint8Array(n),
    left: new Uint8Array(n),
    members: groups.map((group) => group.members),
    step: 0.25,
  };
  const line = groups.map((_, g) => g).filter((g) => groups[g]!.line);
  const steps = line.slice(1).map((g, k) => groups[g]!.time - groups[line[k]!]!.time);
  // A long rest is no step; without any step a usual eighth note stands for it.
  const step = median(steps) ?? 0.25;
  const top = (g: number) => notes[groups[g]!.members.at(-1)!]!;
  let begun = 0;
  line.forEach((g, k) => {
    const here = top(g);
    const [before, next] = [line[k - 1], line[k + 1]];
    strokes.come[g] = before === undefined ? 2 * WIDE + 1 : WIDE + within(here.pitch - top(before).pitch);
    strokes.held[g] = here.duration;
    strokes.begun[g] = Math.min(FAR, begun);
    const ioi = next === undefined ? Number.POSITIVE_INFINITY : groups[next]!.time - groups[g]!.time;
    const rest = ioi - Math.min(here.duration, ioi);
    begun = rest > BREATH * step ? 0 : begun + 1;
    const wide = next === undefined ? 0 : Math.abs(top(next).pitch - here.pitch);
    strokes.leave[g] = rest > PAUSE * step ? 2 : wide === 1 || wide === 2 ? 0 : 1;
  });
  for (let k = line.length - 2; k >= 0; k--) {
    const next = line[k + 1]!;
    strokes.left[line[k]!] = strokes.begun[next] === 0 ? 0 : Math.min(FAR, strokes.left[next]! + 1);
  }
  return { ...strokes, step };
}

function within(semitones: number): number {
  return Math.max(-WIDE, Math.min(WIDE, semitones));
}
