/**
 * The line: which notes follow which in the solo, so that "the note before" and "the note after" mean what a
 * listener takes them to mean.
 *
 * Notes struck together are one moment of the line; its highest note is the main voice, since that is what the ear
 * follows. Lower notes form voices of their own, counted from the top. Notes struck under a longer, higher note that
 * is still held are an inner line. A long silence ends the line: what follows is not heard as moving from it.
 */
import type { Chart, ChordSpan } from "../chart/types.ts";
import type { PlacedNote } from "../take/index.ts";
import { type Sounding, soundingTable } from "./harmonic-role.ts";
import { strengthOf } from "./strength.ts";

/** A silence of more than so many quarter-note beats ends the line. [practice] */
const BREATH_BEATS = 2;

/** The same in seconds, where there is no beat. [practice] */
const BREATH_SECONDS = 1.5;

/** What is known of the chords, made once for all notes. */
export interface Harmony {
  readonly chart: Chart;
  readonly spans: readonly ChordSpan[];
  /** By span, then by pitch class. */
  readonly tables: readonly (readonly Sounding[])[];
  /** Length of one chorus in quarter-note beats. */
  readonly chorusBeats: number;
}

/** When the chord under a note changes. */
export interface Change {
  /** Quarter-note beats from the note's onset to the next chord; null in rubato. */
  readonly after: number | null;
  /** True when the key is still held half a beat (in rubato: audibly) into the next chord. */
  readonly heldInto: boolean;
}

export interface LineNote {
  /** Index into the notes that were given. */
  readonly index: number;
  readonly note: PlacedNote;
  readonly sounding: Sounding;
  readonly strength: number;
  readonly change: Change;
}

/** Notes that follow each other. `null` stands for "nothing that it is joined to". */
export interface JoinedLine {
  readonly harmony: Harmony;
  readonly notes: readonly LineNote[];
  /** Position in `notes` of the note just before and after, if no breath lies between. */
  readonly previous: readonly (number | null)[];
  readonly next: readonly (number | null)[];
  /** The nearest joined note of another pitch, over repeated notes. */
  readonly before: readonly (number | null)[];
  readonly after: readonly (number | null)[];
  /** For a note repeated without a rest: the last note of its pitch under the chord before, from which it is carried over. */
  readonly carried: readonly (number | null)[];
}

export function harmonyOf(chart: Chart, spans: readonly ChordSpan[]): Harmony {
  const last = spans.at(-1);
  return {
    chart,
    spans,
    tables: spans.map((span) => soundingTable(span)),
    chorusBeats: last === undefined ? 0 : last.start + last.beats,
  };
}

/** The span after `span`; after the form's last comes its first, since the form goes round. */
export function nextSpanOf(harmony: Harmony, span: number): number {
  return (span + 1) % harmony.spans.length;
}

/** True when two spans hold the same chord, so that from one to the other nothing changes. */
export function isSameChord(harmony: Harmony, a: number, b: number): boolean {
  return harmony.spans[a]!.symbol === harmony.spans[b]!.symbol;
}

/** What a pitch is under a span. */
export function soundingOf(harmony: Harmony, span: number, pitch: number): Sounding {
  return harmony.tables[span]![pitch % 12]!;
}

/** What joins the notes of a line by their time alone, whatever their pitches. */
export interface Joints {
  readonly previous: readonly (number | null)[];
  readonly next: readonly (number | null)[];
}

export function jointsOf(notes: readonly LineNote[]): Joints {
  const previous: (number | null)[] = [];
  const next: (number | null)[] = [];
  for (let i = 0; i < notes.length; i++) {
    const joined = i > 0 && !isBreath(notes[i - 1]!.note, notes[i]!.note);
    previous.push(joined ? i - 1 : null);
    next.push(null);
    if (joined) next[i - 1] = i;
  }
  return { previous, next };
}

/** Joins notes that are already in the order of the line. Linear. */
export function lineOf(
  harmony: Harmony,
  notes: readonly LineNote[],
  { previous, next }: Joints = jointsOf(notes),
): JoinedLine {
  const before: (number | null)[] = [];
  const carried: (number | null)[] = [];
  for (let i = 0; i < notes.length; i++) {
    const { note } = notes[i]!;
    const last = previous[i] === null ? null : notes[i - 1]!.note;
    const isRepeated = last !== null && last.pitch === note.pitch;
    before.push(isRepeated ? before[i - 1]! : previous[i]!);
    carried.push(isRepeated ? carriedFrom(harmony, last, note, i - 1, carried[i - 1]!) : null);
  }
  const after = [...next];
  for (let i = notes.length - 2; i >= 0; i--) {
    if (next[i] === null || notes[i + 1]!.note.pitch !== notes[i]!.note.pitch) continue;
    const beyond = after[i + 1]!;
    // The first of many notes struck again does not lead to what comes bars later.
    after[i] = beyond === null || isBreath(notes[i]!.note, notes[beyond]!.note) ? null : beyond;
  }
  return { harmony, notes, previous, next, before, after, carried };
}

/** Under one chord a repeated note stays carried from where it was; over a change of chord it is carried from before. */
function carriedFrom(
  harmony: Harmony,
  last: PlacedNote,
  note: PlacedNote,
  place: number,
  carried: number | null,
): number | null {
  if (isRest(last, note)) return null;
  if (isSameChord(harmony, last.span, note.span)) return carried;
  return nextSpanOf(harmony, last.span) === note.span ? place : null;
}

/**
 * True when the silence between two notes is long enough to end the line. A take has beats for all of its notes or,
 * in rubato, for none.
 */
function isBreath(first: PlacedNote, second: PlacedNote): boolean {
  if (first.position === null) return second.onset - (first.onset + first.duration) > BREATH_SECONDS;
  return second.position! - (first.position + first.beats!) > BREATH_BEATS;
}

/** A silence of at least so many quarter-note beats is a rest: it parts a figure, though not yet the line. [practice] */
const REST_BEATS = 0.5;

/** The same in seconds, where there is no beat. [practice] */
const REST_SECONDS = 0.4;

/** A silence of at least so many quarter-note beats lets a note stand by itself. [practice] */
const PAUSE_BEATS = 1;

/** The same in seconds, where there is no beat. [practice] */
const PAUSE_SECONDS = 0.8;

/** True when a rest of a beat or more lies between two notes. */
export function isPause(first: PlacedNote, second: PlacedNote): boolean {
  if (first.position === null) return second.onset - (first.onset + first.duration) > PAUSE_SECONDS;
  return second.position! - (first.position + first.beats!) >= PAUSE_BEATS - NEAR;
}

/** True when a rest lies between two notes: as long as an eighth note, or longer. */
export function isRest(first: PlacedNote, second: PlacedNote): boolean {
  if (first.position === null) return second.onset - (first.onset + first.duration) > REST_SECONDS;
  return second.position! - (first.position + first.beats!) >= REST_BEATS - NEAR;
}

/** Notes of the solo with what the rules ask of them, in order of onset; a grace note stands before its main note. */
export function lineNotes(notes: readonly PlacedNote[], harmony: Harmony): LineNote[] {
  const changes = changeSeconds(notes);
  const chosen: LineNote[] = [];
  notes.forEach((note, index) => {
    if (!note.solo) return;
    chosen.push({
      index,
      note,
      sounding: soundingOf(harmony, note.span, note.pitch),
      strength: strengthOf(note.beat, harmony.chart.meter),
      change: changeOf(note, harmony, changes[index] ?? null),
    });
  });
  return chosen.sort((a, b) => a.note.onset - b.note.onset || graceFirst(a.note) - graceFirst(b.note));
}

/** 0 for a printed grace note, 1 for others: at one onset the grace note leads to the note that it decorates. */
function graceFirst(note: PlacedNote): number {
  return note.printed?.grace == null ? 1 : 0;
}

/** How long a note must sound into a chord to be heard against it: half a beat, or this many seconds. [practice] */
const HEARD_BEATS = 0.5;
const HEARD_SECONDS = 0.25;
const NEAR = 1e-6;

function changeOf(note: PlacedNote, harmony: Harmony, secondsOfChange: number | null): Change {
  if (note.position === null) {
    const end = note.onset + note.duration;
    return { after: null, heldInto: secondsOfChange !== null && end - secondsOfChange >= HEARD_SECONDS };
  }
  // In an ending tag the form no longer goes round: the last chord stays, and no change is near.
  if (note.bar > harmony.chart.bars.length) return { after: Number.POSITIVE_INFINITY, heldInto: false };
  const span = harmony.spans[note.span]!;
  const place = note.position - Math.floor(note.position / harmony.chorusBeats) * harmony.chorusBeats;
  const after = span.start + span.beats - place;
  return { after, heldInto: note.beats! - after >= HEARD_BEATS - NEAR };
}

/** For each note, the onset (seconds) of the first later note of either hand that sounds under another span, or null. */
function changeSeconds(notes: readonly PlacedNote[]): (number | null)[] {
  const found: (number | null)[] = notes.map(() => null);
  for (let i = notes.length - 2; i >= 0; i--) {
    const later = notes[i + 1]!;
    found[i] = later.span === notes[i]!.span ? found[i + 1]! : later.onset;
  }
  return found;
}
