/** What of a passage is due as the clock goes on. Speed and loops are arithmetic here; nothing sounds. */
import type { SoundEvent } from "./events.ts";

/** What is played: events in order of time at speed 1. */
export interface Score {
  readonly events: readonly SoundEvent[];
  /** Seconds at speed 1, until it ends or begins anew. */
  readonly length: number;
  readonly speed: number;
  readonly loop: boolean;
}

export interface Playhead {
  /** Seconds of the clock at which this round began. */
  readonly start: number;
  /** The event that is to be given to the instrument next. */
  readonly next: number;
  /** The event that is to be shown next. */
  readonly shown: number;
}

export interface Due {
  /** What is to be given to the instrument now, with the moment of the clock at which it sounds. */
  readonly strikes: readonly { readonly event: SoundEvent; readonly time: number }[];
  /** Solo notes that sound by now, in order. */
  readonly heard: readonly string[];
  /** Where the playing stands then; null when it has ended. */
  readonly head: Playhead | null;
}

/** Seconds by which the instrument is told beforehand: longer than a busy page forgets its clock. */
const AHEAD = 0.25;

export function startingAt(start: number): Playhead {
  return { start, next: 0, shown: 0 };
}

/** What is due at `now`, in seconds of the clock. */
export function dueAt(score: Score, head: Playhead, now: number): Due {
  const { events, speed } = score;
  const timeOf = (event: SoundEvent) => head.start + event.at / speed;
  const next = firstAfter(events, head.next, (event) => timeOf(event) < now + AHEAD);
  const shown = firstAfter(events, head.shown, (event) => timeOf(event) <= now);
  const strikes = events.slice(head.next, next).map((event) => ({ event, time: timeOf(event) }));
  const heard = events.slice(head.shown, shown).flatMap(({ note }) => note ?? []);
  const end = head.start + score.length / speed;
  if (now < end) return { strikes, heard, head: { ...head, next, shown } };
  return { strikes, heard, head: score.loop ? startingAt(end) : null };
}

function firstAfter(
  events: readonly SoundEvent[],
  from: number,
  isDue: (event: SoundEvent) => boolean,
): number {
  let i = from;
  while (i < events.length && isDue(events[i]!)) i++;
  return i;
}
