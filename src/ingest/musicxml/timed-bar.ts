/** A bar with the places of its notes and signs in ticks. */
import type { BarEvent, NoteEvent, WrittenNote } from "./bar-content.ts";

/** A note of a bar with its place in ticks from the bar line. */
export interface TimedNote {
  readonly part: string;
  readonly voice: string;
  readonly tick: number;
  /** 0 for grace notes. */
  readonly ticks: number;
  readonly grace: NoteEvent["grace"];
  /** Place in its group of grace notes, and the size of the group; 0 and 0 for other notes. */
  readonly graceIndex: number;
  readonly graceCount: number;
  readonly sound: WrittenNote;
}

/** Everything else of a bar that has a place in time. */
export interface TimedFact {
  readonly part: string;
  readonly tick: number;
  readonly event: Exclude<BarEvent, { kind: "note" } | { kind: "move" }>;
}

export interface TimedBar {
  readonly number: string;
  readonly implicit: boolean;
  readonly ticks: number;
  readonly notes: readonly TimedNote[];
  /** In order of time. */
  readonly facts: readonly TimedFact[];
}
