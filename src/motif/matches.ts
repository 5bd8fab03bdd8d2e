import { Problem } from "../take/index.ts";
import { Aligner, type Rows } from "./edits.ts";
import { type PackedText, takeOfPlace } from "./packed-text.ts";
import { codesOfPattern, type MotifPattern } from "./pattern.ts";
import { OF_STEPS } from "./viewpoints.ts";

/** A stretch of a take's line that is a pattern, plainly or nearly. */
export interface Match {
  /** Place of the take in the text. */
  readonly take: number;
  /** Place of the first note in the take's line. */
  readonly step: number;
  readonly notes: number;
  readonly edits: number;
}

export interface Matches {
  /** In all, whatever the limit. */
  readonly found: number;
  readonly matches: readonly Match[];
}

export interface MatchOptions {
  /** Most notes changed, added or left out; at most one in three. */
  readonly maxEdits?: number;
  /** Most matches, the closest first. */
  readonly limit?: number;
  /** False for takes, by their place in the text, that are not meant. */
  readonly within?: (take: number) => boolean;
}

const LIMIT = 10_000;

/**
 * All stretches that are a pattern, the closest first, then in the order of the takes and in time. Matches that overlap
 * by half or more are one: the closest of them.
 *
 * @throws Problem "too-many-edits" when the edits would leave too little of the pattern
 */
export function findMatches(text: PackedText, pattern: MotifPattern, options: MatchOptions = {}): Matches {
  const { maxEdits = 0, limit = LIMIT, within } = options;
  checkEdits(pattern, maxEdits);
  return maxEdits === 0
    ? plainMatches(text, pattern, limit, within)
    : nearMatches(text, pattern, maxEdits, limit, within);
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

type Within = ((take: number) => boolean) | undefined;

function plainMatches(text: PackedText, pattern: MotifPattern, limit: number, within: Within): Matches {
  const { starts } = text;
  const all = text.occurrences(pattern.viewpoint, codesOfPattern(pattern));
  const places = within === undefined ? all : all.filter((place) => within(takeOfPlace(starts, place)));
  const matches = Array.from(places.subarray(0, limit), (place) => {
    const take = takeOfPlace(starts, place);
    return { take, step: place - starts[take]!, notes: pattern.notes, edits: 0 };
  });
  return { found: places.length, matches };
}

/**
 * With k edits, one of k + 1 pieces of the pattern is still whole: each piece is looked up, and the rest aligned to
 * both sides of it. An edited note bends the two steps that meet in it, so between pieces of steps one step is left
 * out, and no edit reaches two of them.
 */
function nearMatches(
  text: PackedText,
  pattern: MotifPattern,
  maxEdits: number,
  limit: number,
  within: Within,
): Matches {
  const { starts } = text;
  const codes = codesOfPattern(pattern);
  const pitched = pattern.viewpoint === "chromatic interval";
  const pieces = maxEdits + 1;
  const gap = pitched ? 1 : 0;
  const covered = codes.length - gap * maxEdits;
  const order = new MatchOrder(starts[starts.length - 1]!, maxEdits);
  const wanted = pitched ? pitchesOf(codes) : codes;
  const given = pitched ? text.pitches : text.codes(pattern.viewpoint);
  const rows = { wanted, given, begin: 0, end: 0, shift: 0 };
  const aligner = new Aligner(rows, maxEdits);
  // Of the last symbol of a row of steps there is nothing after it but its second note.
  const unseen = !pitched && OF_STEPS[pattern.viewpoint] ? 2 : 1;
  for (let piece = 0; piece < pieces; piece++) {
    const from = Math.floor((piece * covered) / pieces) + gap * piece;
    const to = Math.floor(((piece + 1) * covered) / pieces) + gap * piece;
    const length = to - from + (pitched ? 1 : 0);
    let take = -1;
    let meant = false;
    for (const at of text.occurrences(pattern.viewpoint, codes.subarray(from, to))) {
      if (take < 0 || at >= starts[take + 1]!) {
        take = takeOfPlace(starts, at);
        meant = within === undefined || within(take);
        rows.begin = starts[take]!;
        rows.end = starts[take + 1]! - unseen;
      }
      if (!meant) continue;
      if (pitched) rows.shift = wanted[from]! - given[at]!;
      if (maxEdits > 1 && !enoughIsNear(rows, from, length, at, maxEdits)) continue;
      if (!aligner.extend(from - 1, at - 1, -1, maxEdits)) continue;
      const { edits, used } = aligner;
      if (!aligner.extend(from + length, at + length, 1, maxEdits - edits)) continue;
      order.add(at - used, edits + aligner.edits, used + length + aligner.used - wanted.length);
    }
  }
  const { found, first } = order.apart(pattern.notes, limit);
  const matches = first.map(({ place, longer, edits }) => {
    const take = takeOfPlace(starts, place);
    return { take, step: place - starts[take]!, notes: pattern.notes + longer, edits };
  });
  return { found, matches };
}

/**
 * Whether as much of what is wanted stands near its place as an alignment with so few edits would leave whole: each
 * thing that is kept stands at most `maxEdits` places from where it would without any. Short pieces stand in a fifth of
 * all places, and nearly all of those fail here, before they are aligned.
 */
function enoughIsNear(
  { wanted, given, begin, end, shift }: Rows,
  from: number,
  length: number,
  at: number,
  maxEdits: number,
): boolean {
  let missing = 0;
  for (let i = 0; i < wanted.length; i++) {
    if (i >= from && i < from + length) continue;
    const sought = wanted[i]! - shift;
    const place = at + i - from;
    const last = Math.min(end - 1, place + maxEdits);
    let near = Math.max(begin, place - maxEdits);
    while (near <= last && given[near] !== sought) near++;
    if (near > last && ++missing > maxEdits) return false;
  }
  return true;
}

/** Pitches of a row of intervals, from 0. */
function pitchesOf(codes: Int32Array): Int32Array {
  const pitches = new Int32Array(codes.length + 1);
  codes.forEach((code, k) => {
    pitches[k + 1] = pitches[k]! + code - 128;
  });
  return pitches;
}

interface Near {
  readonly place: number;
  /** Notes more than the pattern has. */
  readonly longer: number;
  readonly edits: number;
}

/**
 * Near matches, at most one a place, in the order of their closeness. Short patterns have hundreds of thousands of them
 * in a corpus, so they are kept and put in order by counting.
 */
class MatchOrder {
  readonly #most: number;
  /** 0 for nothing; else, from 1, twice the rank (by edits, then by difference in length), and 1 more for a shorter one. */
  readonly #at: Uint16Array;

  constructor(places: number, maxEdits: number) {
    this.#most = maxEdits;
    this.#at = new Uint16Array(places);
  }

  add(place: number, edits: number, longer: number): void {
    const rank = edits * (this.#most + 1) + Math.abs(longer);
    const value = 1 + 2 * rank + (longer < 0 ? 1 : 0);
    const known = this.#at[place]!;
    if (known === 0 || value < known) this.#at[place] = value;
  }

  /**
   * Without those that overlap a closer one by half or more; by their edits, then by place.
   *
   * @returns how many there are, and the first `limit` of them
   */
  apart(notes: number, limit: number): { readonly found: number; readonly first: readonly Near[] } {
    const at = this.#at;
    const taken = new Uint8Array(at.length);
    let found = 0;
    for (const place of this.#byRank()) {
      const end = place + notes + this.#longer(at[place]!);
      let already = 0;
      for (let i = place; i < end; i++) already += taken[i]!;
      if (already * 2 >= end - place) {
        at[place] = 0;
        continue;
      }
      for (let i = place; i < end; i++) taken[i] = 1;
      found++;
    }
    const byEdits = Array.from({ length: this.#most + 1 }, (): Near[] => []);
    for (let place = 0; place < at.length; place++) {
      if (at[place] === 0) continue;
      const edits = Math.floor(this.#rank(at[place]!) / (this.#most + 1));
      const near = byEdits[edits]!;
      if (near.length < limit) near.push({ place, edits, longer: this.#longer(at[place]!) });
    }
    return { found, first: byEdits.flat().slice(0, limit) };
  }

  /** Places by rank, and within a rank in rising order. */
  #byRank(): Int32Array {
    const at = this.#at;
    const ends = new Int32Array((this.#most + 1) ** 2 + 1);
    for (let place = 0; place < at.length; place++) {
      if (at[place] !== 0) ends[this.#rank(at[place]!) + 1]!++;
    }
    for (let rank = 1; rank < ends.length; rank++) ends[rank]! += ends[rank - 1]!;
    const places = new Int32Array(ends[ends.length - 1]!);
    for (let place = 0; place < at.length; place++) {
      if (at[place] !== 0) places[ends[this.#rank(at[place]!)]!++] = place;
    }
    return places;
  }

  #rank(value: number): number {
    return (value - 1) >> 1;
  }

  #longer(value: number): number {
    const difference = this.#rank(value) % (this.#most + 1);
    return (value & 1) === 0 ? -difference : difference;
  }
}
