import type { SearchNote, SearchTake } from "./motif-index.ts";
import type { SearchHit } from "./search.ts";

/** A hit with the notes around it, as ids and as pitches. */
export interface HitInContext extends SearchHit {
  /** Every note from the first of `before` to the last of `after`. */
  readonly ids: readonly string[];
  readonly before: readonly number[];
  readonly pitches: readonly number[];
  readonly after: readonly number[];
  /** When each note from the first of `before` to the last of `after` starts, in seconds from the hit's first note. */
  readonly onsets: readonly number[];
}

/** Notes shown on either side of a hit. */
const CONTEXT = 4;

/** @param take the take that the hit lies in */
export function inContext(hit: SearchHit, take: SearchTake): HitInContext {
  const first = take.notes.findIndex((note) => note.id === hit.firstNote);
  const last = take.notes.findIndex((note) => note.id === hit.lastNote);
  const start = take.notes[first]?.onset ?? 0;
  const notes = (from: number, to: number): readonly SearchNote[] => take.notes.slice(Math.max(0, from), to);
  const pitches = (from: number, to: number) => notes(from, to).map((note) => note.pitch);
  const all = notes(first - CONTEXT, last + 1 + CONTEXT);
  return {
    ...hit,
    ids: all.map((note) => note.id),
    before: pitches(first - CONTEXT, first),
    pitches: pitches(first, last + 1),
    after: pitches(last + 1, last + 1 + CONTEXT),
    onsets: all.map((note) => Math.round((note.onset - start) * 1000) / 1000),
  };
}
