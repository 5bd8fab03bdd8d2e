/** What is to sound, and when: the notes of passages with what goes along, one after the other. */
import type { AccountIndex } from "../shell/account-index.ts";
import { type Backing, type BackingNote, backingFor } from "./backing.ts";
import { type Clock, clockOf, type Timing } from "./clock.ts";
import { countIn } from "./count-in.ts";
import type { Passage } from "./passages.ts";

export interface Playing {
  readonly backing: ReadonlySet<Backing>;
  /** The recorded notes that are not solo. */
  readonly otherHand: boolean;
  /** 1 is as played. */
  readonly speed: number;
  readonly loop: boolean;
  readonly timing: Timing;
  /** A bar of clicks goes before. */
  readonly countIn: boolean;
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
  const backing = backingFor(index, how.backing);
  const clock = clockOf(index, how.timing);
  const events: SoundEvent[] = [];
  let offset = 0;
  for (const passage of passages) {
    const own = inPassage(index, clock, backing, passage, how.otherHand);
    // Straightened, a note that came late may stand before the moment at which it was played.
    const origin = own.reduce((first, { at }) => Math.min(first, at), clock.at(passage.from));
    if (offset === 0 && how.countIn) {
      const counts = countIn(index, clock, passage.from, origin);
      offset = counts[0]?.before ?? 0;
      for (const { before, first } of counts) events.push(clickAt(offset - before, first));
    }
    for (const event of own) events.push({ ...event, at: event.at - origin + offset });
    offset += clock.at(passage.to) - origin + GAP;
  }
  return events.sort((a, b) => a.at - b.at);
}

const clickAt = (at: number, first: boolean): SoundEvent => ({
  ...{ at, pitch: first ? 1 : 0, velocity: first ? 90 : 60 },
  ...{ duration: 0.03, kind: "click", note: null },
});

/** What sounds in a passage, at seconds of the clock. */
function inPassage(
  index: AccountIndex,
  clock: Clock,
  backing: readonly BackingNote[],
  { from, to }: Passage,
  otherHand: boolean,
): SoundEvent[] {
  const played = index.analysis.notes.filter(
    ({ onset, solo }) => onset >= from - 0.005 && onset < to - 0.001 && (solo || otherHand),
  );
  const along = backing.filter(({ onset }) => onset >= from - 0.01 && onset < to - 0.01);
  return [
    ...played.map(
      (note): SoundEvent => ({
        ...clock.note(note),
        pitch: note.pitch,
        velocity: note.velocity,
        kind: note.solo ? "solo" : "other",
        note: note.solo ? note.id : null,
      }),
    ),
    ...along.map(({ onset, duration, pitch, velocity, kind }): SoundEvent => {
      const at = clock.at(onset);
      return { at, duration: clock.at(onset + duration) - at, pitch, velocity, kind, note: null };
    }),
  ];
}

/** Seconds that the events take at speed 1, with a breath after them; a loop breathes less. */
export function lengthOf(events: readonly SoundEvent[], loop: boolean): number {
  return events.reduce((end, event) => Math.max(end, event.at + event.duration), 0) + (loop ? 0.15 : 0.3);
}
