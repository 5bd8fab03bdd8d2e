/** What is to sound, and when: the notes of passages with what goes along, one after the other. */
import type { AccountIndex } from "../shell/account-index.ts";
import { type Backing, backingFor } from "./backing.ts";
import type { Passage } from "./passages.ts";

export interface Playing {
  readonly backing: ReadonlySet<Backing>;
  /** The recorded notes that are not solo. */
  readonly otherHand: boolean;
  /** 1 is as played. */
  readonly speed: number;
  readonly loop: boolean;
}

export interface SoundEvent {
  /** Seconds from the start at speed 1. */
  readonly at: number;
  readonly duration: number;
  readonly pitch: number;
  readonly velocity: number;
  readonly kind: "solo" | "other" | "click" | "bass" | "shell";
  readonly note: string | null;
}

/** Silence between passages, in seconds. */
const GAP = 0.5;

/** In order of time. Speed changes when they sound, never what sounds: it is left to whoever plays them. */
export function eventsOf(index: AccountIndex, passages: readonly Passage[], how: Playing): SoundEvent[] {
  const events: SoundEvent[] = [];
  const backing = backingFor(index, how.backing);
  let offset = 0;
  for (const { from, to } of passages) {
    const place = (onset: number) => offset + onset - from;
    for (const note of index.analysis.notes) {
      if (note.onset < from - 0.005 || note.onset >= to - 0.001) continue;
      if (!note.solo && !how.otherHand) continue;
      events.push({
        at: place(note.onset),
        duration: note.duration,
        pitch: note.pitch,
        velocity: note.velocity,
        kind: note.solo ? "solo" : "other",
        note: note.solo ? note.id : null,
      });
    }
    for (const note of backing) {
      if (note.onset < from - 0.01 || note.onset >= to - 0.01) continue;
      events.push({
        at: place(note.onset),
        duration: note.duration,
        pitch: note.pitch,
        velocity: note.velocity,
        kind: note.kind,
        note: null,
      });
    }
    offset += to - from + GAP;
  }
  return events.sort((a, b) => a.at - b.at);
}

/** Seconds that the events take at speed 1, with a breath after them; a loop breathes less. */
export function lengthOf(events: readonly SoundEvent[], loop: boolean): number {
  return events.reduce((end, event) => Math.max(end, event.at + event.duration), 0) + (loop ? 0.15 : 0.3);
}
