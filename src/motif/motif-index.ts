import type { MotifViewpoint } from "../account.ts";
import { type LineMember, type LineNote, melodicLine } from "../take/index.ts";
import { packLine } from "./packed-line.ts";
import { type PackedText, packedText } from "./packed-text.ts";
import { joinedText, type SortedText, sortText } from "./symbol-text.ts";
import { OF_STEPS, type ViewedNote } from "./viewpoints.ts";

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
  readonly lines: readonly (readonly LineNote<SearchNote>[])[];
  readonly text: PackedText;
}

/** Index of some takes. Building is linear in their notes, once for each viewpoint that is searched. */
export function buildIndex(takes: readonly SearchTake[]): MotifIndex {
  const lines = takes.map((take) => melodicLine(take.notes));
  const packed = packedText(lines.map((line) => packLine(line.map((step) => step.note))));
  const sorted = new Map<MotifViewpoint, SortedText>();
  const sortedText = (viewpoint: MotifViewpoint) => {
    const text = sorted.get(viewpoint) ?? sortText(symbolText(packed, viewpoint));
    sorted.set(viewpoint, text);
    return text;
  };
  return {
    takes,
    lines,
    text: {
      ...packed,
      occurrences: (viewpoint, codes) => {
        const text = sortedText(viewpoint);
        return occurrencesIn(text, codes)
          .map((at) => text.places[at]!)
          .sort();
      },
    },
  };
}

function symbolText({ starts, codes }: PackedText, viewpoint: MotifViewpoint) {
  const ofSteps = OF_STEPS[viewpoint];
  const row = codes(viewpoint);
  const rows = Array.from(starts.subarray(1), (end, k) =>
    Int32Array.from(row.subarray(starts[k]!, Math.max(starts[k]!, end - (ofSteps ? 2 : 1)))),
  );
  return joinedText(rows, starts, ofSteps, null);
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
