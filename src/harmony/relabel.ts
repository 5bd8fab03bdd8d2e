/** Labels of a line whose pitches change again and again: what hangs on time and chart alone is worked out once. */
import type { Chart, ChordSpan } from "../chart/types.ts";
import type { PlacedNote } from "../take/index.ts";
import type { Sounding } from "./harmonic-role.ts";
import { harmonyOf, jointsOf, type LineNote, lineNotes, soundingOf } from "./joined-line.ts";
import { hasLineRole, lineRoleOf } from "./line-role.ts";
import type { LineRole } from "./roles.ts";
import { isPlainLine, type Voice, voicesOf, voicesOfPlain } from "./voices.ts";

/** What a note does in the line, and the place of the note that it leads to. */
export interface LineLabel {
  readonly role: LineRole;
  readonly target: number | null;
}

export interface Relabelled {
  /** The notes at their pitches. */
  readonly notes: readonly PlacedNote[];
  /** Parallel to the notes. */
  readonly soundings: readonly Sounding[];
  /** The labels of the notes that are wanted, parallel to the notes; 1 for those. */
  readonly lineLabels: (wanted: Uint8Array) => readonly (LineLabel | undefined)[];
  /** Places of the notes that have a line role, in no order: less work than all labels. */
  readonly inRole: (role: LineRole) => readonly number[];
}

type Mutable<T> = { -readonly [K in keyof T]: T[K] };

/**
 * A function from pitches (MIDI numbers, parallel to `notes`) to the labels that `labelNotes` would give the notes at
 * those pitches. What it returns is good until it is called again.
 *
 * @param notes of the solo, in time order
 */
export function relabeller(
  notes: readonly PlacedNote[],
  chart: Chart,
  spans: readonly ChordSpan[],
): (pitches: readonly number[]) => Relabelled {
  const harmony = harmonyOf(chart, spans);
  const own = notes.map((note): Mutable<PlacedNote> => ({ ...note }));
  const line: Mutable<LineNote>[] = lineNotes(own, harmony);
  const joints = isPlainLine(line) ? jointsOf(line) : null;
  const soundings = new Array<Sounding>(own.length);
  return (pitches) => {
    for (let i = 0; i < own.length; i++) {
      own[i]!.pitch = pitches[i]!;
      soundings[i] = soundingOf(harmony, own[i]!.span, pitches[i]!);
    }
    for (const one of line) one.sounding = soundings[one.index]!;
    let told: readonly Voice[] | null = null;
    const voices = () =>
      (told ??= joints === null ? voicesOf(harmony, line) : voicesOfPlain(harmony, line, joints));
    return {
      notes: own,
      soundings,
      lineLabels: (wanted) => labelsOf(voices(), wanted),
      inRole: (role) => voices().flatMap((voice) => placesInRole(voice, role)),
    };
  };

  function labelsOf(voices: readonly Voice[], wanted: Uint8Array): (LineLabel | undefined)[] {
    const labels = new Array<LineLabel | undefined>(notes.length);
    for (const voice of voices) {
      voice.line.notes.forEach(({ index }, i) => {
        if (!voice.own[i] || wanted[index] === 0) return;
        const { role, target } = lineRoleOf(voice.line, i);
        labels[index] = { role, target: target === null ? null : voice.line.notes[target]!.index };
      });
    }
    return labels;
  }
}

/** Places, among all notes, of a voice's own notes that have a line role. */
function placesInRole({ line, own }: Voice, role: LineRole): number[] {
  const places: number[] = [];
  for (let i = 0; i < own.length; i++) {
    if (own[i] && hasLineRole(line, i, role)) places.push(line.notes[i]!.index);
  }
  return places;
}
