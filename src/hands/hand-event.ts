import type { Finger, Hand } from "../take/index.ts";

/** Notes that one hand strikes together, seen as a right hand sees them. */
export interface HandEvent {
  readonly hand: Hand;
  /** Indices into the notes, from the thumb's side outwards. */
  readonly notes: readonly number[];
  /** Keys as the right hand sees them (mirrored for the left), rising. */
  readonly keys: readonly number[];
  /** Printed fingers for each key, or null: first the one that strikes it, then alternates and substitutions. */
  readonly printed: readonly (readonly Finger[] | null)[];
  /** Index into the chord spans. */
  readonly span: number;
  /** Index of the chord span that comes within half a beat, or `span`. */
  readonly comingSpan: number;
  readonly chorus: number;
  /** 0 (no time to move) to 1 (free), from the event before. */
  readonly ease: number;
  /** Seconds from the start of the event before. */
  readonly interval: number;
  /** Keys that the hand still holds from events before. */
  readonly held: readonly number[];
  /** For every key the index of the key of the event before that slides into it, or -1. */
  readonly slides: readonly number[];
}
