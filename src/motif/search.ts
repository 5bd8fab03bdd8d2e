import type { MotifViewpoint } from "../account.ts";
import { Problem } from "../take/index.ts";
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

export interface Found {
  /** In all, whatever the limit. */
  readonly found: number;
  readonly hits: readonly SearchHit[];
}

export interface SearchOptions {
  /** Most notes changed, added or left out; at most one in three. */
  readonly maxEdits?: number;
  /** Most hits, the closest first. */
  readonly limit?: number;
  /** False for takes, by their place in the index, that are not meant. */
  readonly within?: (take: number) => boolean;
}

const LIMIT = 10_000;

/**
 * All places where a pattern occurs, the closest first, then in the order of the takes and in time.
 * Hits that overlap by half or more are one: the closest of them.
 *
 * @throws Problem "too-many-edits" when the edits would leave too little of the pattern
 */
export function search(index: MotifIndex, pattern: MotifPattern, options: SearchOptions = {}): SearchHit[] {
  return [...searchAll(index, pattern, options).hits];
}

/** As `search`, with the number of all hits; only those within the limit are looked at more closely. */
export function searchAll(index: MotifIndex, pattern: MotifPattern, options: SearchOptions = {}): Found {
  const { maxEdits = 0, limit = LIMIT, within = () => true } = options;
  checkEdits(pattern, maxEdits);
  const matches =
    maxEdits === 0 ? plainMatches(index, pattern, within) : nearMatchesOf(index, pattern, maxEdits, within);
  const hits = matches.slice(0, limit).map(({ place, notes, edits }) => {
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
  return { found: matches.length, hits };
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

function plainMatches(index: MotifIndex, pattern: MotifPattern, within: (take: number) => boolean): Match[] {
  const text = index.text(pattern.viewpoint);
  const places = occurrencesIn(text, codesOfPattern(pattern))
    .map((at) => text.places[at]!)
    .filter((place) => within(takeOfPlace(index, place).take));
  return Array.from(places.sort(), (place) => ({ place, notes: pattern.notes, edits: 0 }));
}

/**
 * With k edits, one of k + 1 pieces of the pattern is still whole: each piece is looked up, and the rest aligned to
 * both sides of it. An edited note bends the two steps that meet in it, so between pieces of steps one step is left
 * out, and no edit reaches two of them.
 */
function nearMatchesOf(
  index: MotifIndex,
  pattern: MotifPattern,
  maxEdits: number,
  within: (take: number) => boolean,
): Match[] {
  const text = index.text(pattern.viewpoint);
  const codes = codesOfPattern(pattern);
  const pitched = pattern.viewpoint === "chromatic interval";
  const pieces = maxEdits + 1;
  const gap = pitched ? 1 : 0;
  const covered = codes.length - gap * maxEdits;
  const best = new Map<number, Match>();
  const elementsOf = elementsIn(index, pattern.viewpoint, codes);
  for (let piece = 0; piece < pieces; piece++) {
    const from = Math.floor((piece * covered) / pieces) + gap * piece;
    const to = Math.floor(((piece + 1) * covered) / pieces) + gap * piece;
    for (const at of occurrencesIn(text, codes.subarray(from, to))) {
      const { take, step } = takeOfPlace(index, text.places[at]!);
      if (!within(take)) continue;
      const elements = elementsOf(take, from, step);
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

/**
 * The pattern against the line of a take: in chromatic intervals note by note, at the transposition at which the piece
 * from `from` lies on `step`; else symbol by symbol.
 */
function elementsIn(
  index: MotifIndex,
  viewpoint: MotifViewpoint,
  codes: Int32Array,
): (take: number, from: number, step: number) => Elements {
  const notesOf = (take: number) => index.lines[take]!.map((step) => step.note);
  if (viewpoint !== "chromatic interval") {
    const rowOf = kept((take) => index.codesOf?.(take, viewpoint) ?? codesOf(notesOf(take), viewpoint));
    return (take) => {
      const row = rowOf(take);
      return { wanted: codes.length, given: row.length, equal: (i, j) => codes[i] === row[j] };
    };
  }
  const pitches = [0];
  for (const code of codes) pitches.push(pitches[pitches.length - 1]! + code - 128);
  const lineOf = kept((take) => index.pitchesOf?.(take) ?? notesOf(take).map((note) => note.pitch));
  return (take, from, step) => {
    const line = lineOf(take);
    const shift = line[step]! - pitches[from]!;
    return { wanted: pitches.length, given: line.length, equal: (i, j) => pitches[i]! + shift === line[j] };
  };
}

function kept<T>(make: (take: number) => T): (take: number) => T {
  const made = new Map<number, T>();
  return (take) => {
    let value = made.get(take);
    if (value === undefined) {
      value = make(take);
      made.set(take, value);
    }
    return value;
  };
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
