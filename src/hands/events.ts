import type { ChordSpan } from "../chart/index.ts";
import { type Finger, type Hand, type PlacedNote, struckTogether } from "../take/index.ts";
import { REST_SECONDS, SLOW_SECONDS } from "./costs.ts";
import type { HandEvent } from "./hand-event.ts";
import { mirrorPitch } from "./placements.ts";
import { withSlides } from "./played-slides.ts";

/**
 * Groups one hand's notes, in time order, into what is struck together. `indices` are the hand's notes among all.
 * Grace notes are grouped only where they are printed as one chord: others are played one after the other.
 */
export function handEvents(
  notes: readonly PlacedNote[],
  indices: readonly number[],
  hand: Hand,
  spans: readonly ChordSpan[],
): HandEvent[] {
  const events: HandEvent[] = [];
  const holding = new HeldKeys();
  const chorusBeats = spans.reduce((sum, span) => sum + span.beats, 0);
  const keyOf = (index: number) =>
    hand === "right" ? notes[index]!.pitch : mirrorPitch(notes[index]!.pitch);
  let start = 0;
  while (start < indices.length) {
    let end = start + 1;
    const first = notes[indices[start]!]!;
    while (end < indices.length && areTogether(first, notes[indices[end]!]!)) end++;
    const single = end === start + 1;
    const group = single ? [indices[start]!] : indices.slice(start, end).sort((a, b) => keyOf(a) - keyOf(b));
    const keys = single ? [keyOf(group[0]!)] : group.map(keyOf);
    const before = start === 0 ? null : notes[indices[start - 1]!]!;
    events.push({
      hand,
      notes: group,
      keys,
      printed: single ? [knownFingers(first)] : group.map((index) => knownFingers(notes[index]!)),
      span: first.span,
      comingSpan: spanWithinHalfBeat(first, spans, chorusBeats),
      chorus: first.chorus,
      ease: before === null ? 1 : easeOfMoving(before, first),
      interval: before === null ? Number.POSITIVE_INFINITY : first.onset - before.onset,
      held: holding.strike(notes, group, keys),
      slides: single ? NOT_SLID : group.map(() => -1),
    });
    start = end;
  }
  return withSlides(events, notes);
}

/** Of a single key: no key slides into it. */
const NOT_SLID: readonly number[] = [-1];

/** How many slides the keys and the time of some notes tell, whatever fingers play them. */
export function countSlides(notes: readonly PlacedNote[], spans: readonly ChordSpan[]): number {
  let slides = 0;
  for (const hand of ["right", "left"] as const) {
    const indices = notes.flatMap((note, i) => (note.hand === hand ? [i] : []));
    for (const event of handEvents(notes, indices, hand, spans)) {
      slides += event.slides.filter((from) => from >= 0).length;
    }
  }
  return slides;
}

/** A key counts as held beside another that is struck when it is held this much of the other's length, and so long. */
const HELD = { share: 0.5, seconds: 0.06 } as const;

const NONE_HELD: readonly number[] = [];

/** Keys that are down, and until when. */
class HeldKeys {
  readonly #keys: number[] = [];
  readonly #ends: number[] = [];

  /** Strikes the notes of a group together, on these keys, and returns the keys that stay down meanwhile. */
  strike(notes: readonly PlacedNote[], group: readonly number[], keys: readonly number[]): readonly number[] {
    const { onset } = notes[group[0]!]!;
    let shortest = Number.POSITIVE_INFINITY;
    for (const index of group) shortest = Math.min(shortest, notes[index]!.duration);
    const least = onset + Math.max(HELD.seconds, HELD.share * shortest);
    let held: number[] | null = null;
    let kept = 0;
    for (let k = 0; k < this.#keys.length; k++) {
      const [key, end] = [this.#keys[k]!, this.#ends[k]!];
      if (end <= onset + HELD.seconds || keys.includes(key)) continue;
      this.#keys[kept] = key;
      this.#ends[kept++] = end;
      if (end >= least) {
        held ??= [];
        held.push(key);
      }
    }
    this.#keys.length = kept;
    this.#ends.length = kept;
    group.forEach((index, n) => {
      this.#keys.push(keys[n]!);
      this.#ends.push(notes[index]!.onset + notes[index]!.duration);
    });
    return held ?? NONE_HELD;
  }
}

/**
 * The fingers that are known of a note: the one that somebody put right, or those that are printed (the one that
 * strikes it first, then its alternates, then those that take over the held key). Null when none is known.
 */
function knownFingers(note: PlacedNote): Finger[] | null {
  if (note.corrected?.finger !== undefined) return [note.corrected.finger];
  const marks = note.printed?.fingering;
  if (marks === undefined || marks.length === 0) return null;
  const striking = marks.filter((mark) => !mark.substitution && !mark.alternate);
  const others = marks.filter((mark) => mark.substitution || mark.alternate);
  return [...striking, ...others].map((mark) => mark.finger);
}

function areTogether(a: PlacedNote, b: PlacedNote): boolean {
  if (a.pitch === b.pitch) return false;
  const [graceA, graceB] = [isGrace(a), isGrace(b)];
  if (graceA || graceB) return graceA && graceB && a.onset === b.onset;
  return struckTogether(b.onset - a.onset);
}

function isGrace({ printed }: PlacedNote): boolean {
  return (printed?.grace ?? null) !== null;
}

/** Silence frees the hand, and so does time: a long note can be left early. */
function easeOfMoving(before: PlacedNote, note: PlacedNote): number {
  const rest = note.onset - before.onset - before.duration;
  const interval = note.onset - before.onset;
  const byRest = (rest - REST_SECONDS.from) / (REST_SECONDS.free - REST_SECONDS.from);
  const byTime = (interval - SLOW_SECONDS.from) / (SLOW_SECONDS.free - SLOW_SECONDS.from);
  return Math.min(1, Math.max(0, byRest, byTime));
}

function spanWithinHalfBeat(note: PlacedNote, spans: readonly ChordSpan[], chorusBeats: number): number {
  const span = spans[note.span];
  if (span === undefined || note.position === null || chorusBeats <= 0) return note.span;
  const inChorus = ((note.position % chorusBeats) + chorusBeats) % chorusBeats;
  const left = span.start + span.beats - inChorus;
  return left > 0 && left <= 0.5 + 1e-6 ? (note.span + 1) % spans.length : note.span;
}
