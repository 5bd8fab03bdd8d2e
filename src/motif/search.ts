import type { MotifViewpoint } from "../account.ts";
import { type LineNote, Problem } from "../take/index.ts";
import { type Elements, extend } from "./edits.ts";
import { buildIndex, type MotifIndex, occurrencesIn, type SearchNote, takeOfPlace } from "./motif-index.ts";
import { codesOfPattern, type MotifPattern } from "./pattern.ts";
import { codesOf, OF_STEPS } from "./viewpoints.ts";

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

export interface SearchOptions {
  /** Most notes changed, added or left out; at most one in three. */
  readonly maxEdits?: number;
  /** Most hits, the closest first. */
  readonly limit?: number;
}

const LIMIT = 10_000;

/**
 * All places where a pattern occurs, the closest first, then in the order of the takes and in time.
 * Hits that overlap by half or more are one: the closest of them.
 *
 * @throws Problem "too-many-edits" when the edits would leave too little of the pattern
 */
export function search(index: MotifIndex, pattern: MotifPattern, options: SearchOptions = {}): SearchHit[] {
  const { maxEdits = 0, limit = LIMIT } = options;
  checkEdits(pattern, maxEdits);
  const matches = maxEdits === 0 ? plainMatches(index, pattern) : nearMatchesOf(index, pattern, maxEdits);
  return matches.slice(0, limit).map(({ place, notes, edits }) => {
    const { take, step } = takeOfPlace(index, place);
    const [first, last] = [index.lines[take]![step]!, index.lines[take]![step + notes - 1]!];
    const source = index.takes[take]!;
    const [a, b] = [source.notes[first.first]!, source.notes[last.last]!];
    return {
      take: source.id,
      firstNote: a.id,
      lastNote: b.id,
      notes,
      chorus: a.chorus,
      bar: a.bar,
      beat: a.beat,
      edits,
      pitch: first.note.pitch,
    };
  });
}

/** A pattern sought in one take's solo notes, without an index to be kept. */
export function matchPattern(
  pattern: MotifPattern,
  notes: readonly SearchNote[],
  options: SearchOptions = {},
): SearchHit[] {
  return search(buildIndex([{ id: "", notes }]), pattern, options);
}

interface Match {
  readonly place: number;
  readonly notes: number;
  readonly edits: number;
}

function checkEdits(pattern: MotifPattern, maxEdits: number): void {
  const most = Math.floor((pattern.notes - 1) / 3);
  if (Number.isInteger(maxEdits) && maxEdits >= 0 && maxEdits <= most) return;
  throw new Problem(
    "too-many-edits",
    `A pattern of ${pattern.notes} notes can be sought with at most ${most} changes, not ${maxEdits}`,
    "maxEdits",
    "Allow fewer changes, or give a longer pattern",
  );
}

function plainMatches(index: MotifIndex, pattern: MotifPattern): Match[] {
  const text = index.text(pattern.viewpoint);
  const places = occurrencesIn(text, codesOfPattern(pattern)).map((at) => text.places[at]!);
  return Array.from(places.sort(), (place) => ({ place, notes: pattern.notes, edits: 0 }));
}

/**
 * With k edits, one of 2 k + 1 pieces of the pattern's steps is still whole (an edited note bends two steps; of an
 * edited symbol k + 1 would do): each piece is looked up, and the rest aligned to both sides of it.
 */
function nearMatchesOf(index: MotifIndex, pattern: MotifPattern, maxEdits: number): Match[] {
  const text = index.text(pattern.viewpoint);
  const codes = codesOfPattern(pattern);
  const pitched = pattern.viewpoint === "chromatic interval";
  const pieces = Math.min(codes.length, (pitched ? 2 : 1) * maxEdits + 1);
  const best = new Map<number, Match>();
  const rows = new Map<number, Int32Array>();
  for (let piece = 0; piece < pieces; piece++) {
    const from = Math.floor((piece * codes.length) / pieces);
    const to = Math.floor(((piece + 1) * codes.length) / pieces);
    for (const at of occurrencesIn(text, codes.subarray(from, to))) {
      const { take, step } = takeOfPlace(index, text.places[at]!);
      const line = index.lines[take]!;
      const elements = pitched
        ? pitchElements(codes, line, from, step)
        : symbolElements(codes, rowOf(rows, take, line, pattern.viewpoint));
      const match = around(elements, from, to - from + (pitched ? 1 : 0), step, maxEdits);
      if (match === null) continue;
      const place = index.starts[take]! + match.from;
      const notes = match.length + (OF_STEPS[pattern.viewpoint] && !pitched ? 1 : 0);
      const known = best.get(place);
      if (known === undefined || match.edits < known.edits) {
        best.set(place, { place, notes, edits: match.edits });
      }
    }
  }
  return withoutOverlaps([...best.values()], pattern.notes);
}

/** Aligns what lies before and after a whole piece; null when that takes more edits than are allowed. */
function around(
  elements: Elements,
  pieceFrom: number,
  pieceLength: number,
  at: number,
  maxEdits: number,
): { from: number; length: number; edits: number } | null {
  const before = extend(elements, pieceFrom - 1, at - 1, -1, maxEdits);
  if (before === null) return null;
  const left = maxEdits - before.edits;
  const after = extend(elements, pieceFrom + pieceLength, at + pieceLength, 1, left);
  if (after === null) return null;
  const length = before.used + pieceLength + after.used;
  return { from: at - before.used, length, edits: before.edits + after.edits };
}

/** Notes of the pattern against notes of the line, at the transposition at which the piece lies. */
function pitchElements(
  codes: Int32Array,
  line: readonly LineNote<SearchNote>[],
  from: number,
  step: number,
): Elements {
  const pitches = [0];
  for (const code of codes) pitches.push(pitches[pitches.length - 1]! + code - 128);
  const shift = line[step]!.note.pitch - pitches[from]!;
  return {
    wanted: pitches.length,
    given: line.length,
    equal: (i, j) => pitches[i]! + shift === line[j]!.note.pitch,
  };
}

function symbolElements(codes: Int32Array, row: Int32Array): Elements {
  return { wanted: codes.length, given: row.length, equal: (i, j) => codes[i] === row[j] };
}

function rowOf(
  rows: Map<number, Int32Array>,
  take: number,
  line: readonly LineNote<SearchNote>[],
  viewpoint: MotifViewpoint,
): Int32Array {
  const known = rows.get(take);
  if (known !== undefined) return known;
  const row = codesOf(
    line.map((step) => step.note),
    viewpoint,
  );
  rows.set(take, row);
  return row;
}

function withoutOverlaps(matches: Match[], notes: number): Match[] {
  matches.sort(
    (a, b) => a.edits - b.edits || Math.abs(a.notes - notes) - Math.abs(b.notes - notes) || a.place - b.place,
  );
  const taken = new Set<number>();
  const kept = matches.filter((match) => {
    let already = 0;
    for (let i = match.place; i < match.place + match.notes; i++) if (taken.has(i)) already++;
    if (already * 2 >= match.notes) return false;
    for (let i = match.place; i < match.place + match.notes; i++) taken.add(i);
    return true;
  });
  return kept.sort((a, b) => a.edits - b.edits || a.place - b.place);
}
