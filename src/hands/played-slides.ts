/**
 * Slides as they are played: a finger falls from a black key to the white key beside it. The keys and the time tell
 * them, whatever placement the hand is in, and wherever in a phrase they stand. [practice]
 */

import { isBlackKey } from "../pitch/index.ts";
import type { PlacedNote } from "../take/index.ts";
import type { HandEvent } from "./hand-event.ts";

const PLAYED_SLIDE = {
  /** Seconds up to which a note is as good as crushed. */
  crushed: 0.12,
  /** Seconds up to which a note can be slid off at the start of a phrase, or where all around it is longer. */
  short: 0.26,
  /** How many times longer the notes around it are. */
  longer: 1.5,
  /** At the start of a phrase the note that it slides into is at least about as long. */
  asLong: 0.9,
  /** Freedom of the hand from which a note starts a phrase. */
  fresh: 0.5,
} as const;

/** The events, each with the keys that slide into it. `notes`: those that the events count by. */
export function withSlides(events: readonly HandEvent[], notes: readonly PlacedNote[]): HandEvent[] {
  return events.map((event, i) => {
    const before = events[i - 1];
    if (before === undefined || !areSlid(before, event) || !isTimedAsSlide(events, notes, i - 1))
      return event;
    return { ...event, slides: event.keys.map((key, n) => (key === before.keys[n] ? -1 : n)) };
  });
}

/** True where every key is slid into, or struck again, and one is slid into at least. */
function areSlid(before: HandEvent, event: HandEvent): boolean {
  if (before.keys.length !== event.keys.length || event.keys.length > 2) return false;
  let slid = false;
  for (let n = 0; n < event.keys.length; n++) {
    const [from, to] = [before.keys[n]!, event.keys[n]!];
    if (from === to) continue;
    if (Math.abs(to - from) !== 1 || !isBlackKey(from) || isBlackKey(to)) return false;
    if (isContradicted(before, event, n)) return false;
    slid = true;
  }
  return slid;
}

/** True where printed fingers say that two fingers play the two keys. */
function isContradicted(before: HandEvent, event: HandEvent, n: number): boolean {
  const [a, b] = [before.printed[n], event.printed[n]];
  return a != null && b != null && !a.some((finger) => b.includes(finger));
}

function isTimedAsSlide(events: readonly HandEvent[], notes: readonly PlacedNote[], i: number): boolean {
  const [note, next] = [notes[events[i]!.notes[0]!]!, notes[events[i + 1]!.notes[0]!]!];
  if ((note.printed?.grace ?? null) !== null) return true;
  const length = events[i + 1]!.interval;
  if (length > PLAYED_SLIDE.short) return false;
  const gap = (k: number) => events[k]?.interval ?? Number.POSITIVE_INFINITY;
  const after = i + 2 < events.length ? gap(i + 2) : Math.max(next.duration, length);
  const long = PLAYED_SLIDE.longer * length;
  if (length <= PLAYED_SLIDE.crushed && after >= long && gap(i) >= long) return true;
  if ([gap(i), gap(i - 1), after, gap(i + 3)].every((one) => one >= long)) return true;
  const rises = next.pitch >= note.pitch;
  if (events[i]!.ease < PLAYED_SLIDE.fresh || !rises || after < PLAYED_SLIDE.asLong * length) return false;
  // A line that goes on by half steps is a chromatic line, not a slide.
  const later = events[i + 2];
  const step = events[i + 1]!.keys[0]! - events[i]!.keys[0]!;
  return later === undefined || later.keys[0]! - events[i + 1]!.keys[0]! !== step;
}
