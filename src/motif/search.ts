import { type LineNote, melodicLine } from "../take/index.ts";
import { findMatches, type Match, type MatchOptions } from "./matches.ts";
import { buildIndex, type MotifIndex, type SearchNote, type SearchTake } from "./motif-index.ts";
import type { MotifPattern } from "./pattern.ts";

/** One place where a pattern is played, plainly or nearly. */
export interface SearchHit {
  /** `SearchTake.id`. */
  readonly take: string;
  readonly firstNote: string;
  readonly lastNote: string;
  readonly notes: number;
  readonly chorus: number;
  readonly bar: number;
  readonly beat: number | null;
  /** Notes (in the other viewpoints than chromatic interval: symbols) changed, added or left out. */
  readonly edits: number;
  /** Pitch of the first note, for telling transpositions apart. */
  readonly pitch: number;
}

export interface Found {
  /** In all, whatever the limit. */
  readonly found: number;
  readonly hits: readonly SearchHit[];
}

/**
 * All places where a pattern occurs, the closest first, then in the order of the takes and in time.
 * Hits that overlap by half or more are one: the closest of them.
 *
 * @throws Problem "too-many-edits" when the edits would leave too little of the pattern
 */
export function search(index: MotifIndex, pattern: MotifPattern, options: MatchOptions = {}): SearchHit[] {
  return [...searchAll(index, pattern, options).hits];
}

/** As `search`, with the number of all hits; only those within the limit are looked at more closely. */
function searchAll(index: MotifIndex, pattern: MotifPattern, options: MatchOptions = {}): Found {
  const { found, matches } = findMatches(index.text, pattern, options);
  return {
    found,
    hits: matches.map((match) => hitOf(match, index.takes[match.take]!, index.lines[match.take]!)),
  };
}

/** What was found in a take, told by its notes. */
export function hitOf(
  { step, notes, edits }: Omit<Match, "take">,
  take: SearchTake,
  line: readonly LineNote<SearchNote>[] = melodicLine(take.notes),
): SearchHit {
  const [first, last] = [line[step]!, line[step + notes - 1]!];
  const [a, b] = [take.notes[first.first]!, take.notes[last.last]!];
  return {
    take: take.id,
    firstNote: a.id,
    lastNote: b.id,
    notes,
    chorus: a.chorus,
    bar: a.bar,
    beat: a.beat,
    edits,
    pitch: first.note.pitch,
  };
}

/** A pattern sought in one take's solo notes, without an index to be kept. */
export function matchPattern(
  pattern: MotifPattern,
  notes: readonly SearchNote[],
  options: MatchOptions = {},
): SearchHit[] {
  return search(buildIndex([{ id: "", notes }]), pattern, options);
}
