import type { MotifViewpoint } from "../account.ts";
import { type LineMember, type LineNote, melodicLine } from "../take/index.ts";
import { joinedText, type SortedText, sortText } from "./symbol-text.ts";
import { codesOf, OF_STEPS, type ViewedNote } from "./viewpoints.ts";

/** What a search needs of a note. Notes of an account and placed notes both have it. */
export interface SearchNote extends ViewedNote, LineMember {
  readonly id: string;
  readonly chorus: number;
  readonly bar: number;
  readonly beat: number | null;
}

/** A take to be searched: its solo notes in time order. */
export interface SearchTake {
  readonly id: string;
  readonly notes: readonly SearchNote[];
}

/** Takes laid end to end, ready to be searched; the text of a viewpoint is sorted when it is first asked for. */
export interface MotifIndex {
  readonly takes: readonly SearchTake[];
  /** First place of each take, and after them the number of places. */
  readonly starts: readonly number[];
  readonly lines: readonly (readonly LineNote<SearchNote>[])[];
  text(viewpoint: MotifViewpoint): SortedText;
  /** Pitches of a take's line, and its codes, where an index keeps them apart from the notes; else read from `lines`. */
  pitchesOf?(take: number): ArrayLike<number>;
  codesOf?(take: number, viewpoint: MotifViewpoint): Int32Array;
}

/** Index of some takes. Building is linear in their notes, once for each viewpoint that is searched. */
export function buildIndex(takes: readonly SearchTake[]): MotifIndex {
  const lines = takes.map((take) => melodicLine(take.notes));
  const starts = [0];
  for (const line of lines) starts.push(starts[starts.length - 1]! + line.length);
  const texts = new Map<MotifViewpoint, SortedText>();
  return {
    takes,
    starts,
    lines,
    text(viewpoint) {
      const known = texts.get(viewpoint);
      if (known !== undefined) return known;
      const rows = lines.map((line) =>
        codesOf(
          line.map((step) => step.note),
          viewpoint,
        ),
      );
      const sorted = sortText(joinedText(rows, starts, OF_STEPS[viewpoint], null));
      texts.set(viewpoint, sorted);
      return sorted;
    },
  };
}

/** Take, and place in its line, of a place of the index. */
export function takeOfPlace(index: MotifIndex, place: number): { take: number; step: number } {
  let low = 0;
  let high = index.lines.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (index.starts[middle]! <= place) low = middle;
    else high = middle - 1;
  }
  return { take: low, step: place - index.starts[low]! };
}

/**
 * Where some codes occur in a sorted text, in no order: a slice of its suffixes, found by bisection.
 *
 * @returns indices into `text.text`
 */
export function occurrencesIn(text: SortedText, codes: Int32Array): Int32Array {
  const symbols = new Int32Array(codes.length);
  for (let k = 0; k < codes.length; k++) {
    const rank = rankOf(text.codes, codes[k]!);
    if (rank < 0) return new Int32Array(0);
    symbols[k] = text.breaks + rank;
  }
  const from = bound(text, symbols, false);
  return text.sorted.subarray(from, bound(text, symbols, true));
}

/** First suffix that is not below the symbols, or, past them, the first that is above and does not begin with them. */
function bound(text: SortedText, symbols: Int32Array, past: boolean): number {
  let low = 0;
  let high = text.sorted.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    const order = compare(text.text, text.sorted[middle]!, symbols);
    if (order < 0 || (past && order === 0)) low = middle + 1;
    else high = middle;
  }
  return low;
}

function compare(text: Int32Array, start: number, symbols: Int32Array): number {
  for (let k = 0; k < symbols.length; k++) {
    if (start + k >= text.length) return -1;
    const difference = text[start + k]! - symbols[k]!;
    if (difference !== 0) return difference;
  }
  return 0;
}

function rankOf(codes: Int32Array, code: number): number {
  let low = 0;
  let high = codes.length - 1;
  while (low <= high) {
    const middle = (low + high) >> 1;
    if (codes[middle] === code) return middle;
    if (codes[middle]! < code) low = middle + 1;
    else high = middle - 1;
  }
  return -1;
}
