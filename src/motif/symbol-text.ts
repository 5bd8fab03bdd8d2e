import type { MotifViewpoint } from "../account.ts";
import { commonPrefixes } from "./common-prefix.ts";
import type { SoloLine } from "./solo-line.ts";
import { suffixArray } from "./suffix-array.ts";
import { codesOf, OF_STEPS, SILENT } from "./viewpoints.ts";

/**
 * A line, or many, in one viewpoint as a text for a suffix array: each code is replaced by its rank, and each breath
 * and silent place by a symbol that occurs nowhere else, so that no repeat reaches over it.
 */
export interface SymbolText {
  /** Symbols: below `breaks` the unique ones, from there on the ranks of the codes. */
  readonly text: Int32Array;
  /** Place in the line of each symbol; of a step, the place of its first note. */
  readonly places: Int32Array;
  readonly breaks: number;
  /** Codes in rising order; symbol `breaks + r` stands for `codes[r]`. */
  readonly codes: Int32Array;
}

/** A text with its suffixes in order: what repeats are read from, and what a search walks through. */
export interface SortedText extends SymbolText {
  readonly sorted: Int32Array;
}

export function textOf(line: SoloLine, viewpoint: MotifViewpoint): SymbolText {
  const rows = line.takes
    .slice(0, -1)
    .map((start, k) => codesOf(line.heads, viewpoint, start, line.takes[k + 1]!));
  return joinedText(rows, line.takes, OF_STEPS[viewpoint], line.breath);
}

/** Ranks of codes among those of a text, counted from 0; null where one of them does not occur in it. */
export function symbolsOf({ codes: known }: SymbolText, codes: readonly number[]): Int32Array | null {
  const symbols = Int32Array.from(codes, (code) => known.indexOf(code));
  return symbols.includes(-1) ? null : symbols;
}

/**
 * @param rows codes of each take
 * @param starts first place of each take
 * @param ofSteps true when a code belongs to the step from its place to the next one
 * @param breath 1 where nothing goes on from a place to the next; null for no breaths
 */
export function joinedText(
  rows: readonly Int32Array[],
  starts: ArrayLike<number>,
  ofSteps: boolean,
  breath: Uint8Array | null,
): SymbolText {
  const present = new Uint8Array(1 + greatest(rows));
  // Exact, for at a million notes each array that need not be there costs more than it takes to fill.
  let length = 0;
  rows.forEach((row, k) => {
    length += row.length + 1;
    if (ofSteps || breath === null) return;
    for (let i = 0; i < row.length; i++) length += breath[starts[k]! + i]!;
  });
  const text = new Int32Array(length);
  const places = new Int32Array(length);
  let n = 0;
  let breaks = 0;
  rows.forEach((row, k) => {
    const start = starts[k]!;
    for (let i = 0; i < row.length; i++) {
      const code = row[i]!;
      const stop = breath !== null && breath[start + i] === 1;
      places[n] = start + i;
      if (code === SILENT || (ofSteps && stop)) {
        text[n++] = -1;
        breaks++;
        continue;
      }
      present[code] = 1;
      text[n++] = code;
      if (!ofSteps && stop) {
        places[n] = start + i;
        text[n++] = -1;
        breaks++;
      }
    }
    // One take does not run into the next.
    places[n] = start + row.length - 1;
    text[n++] = -1;
    breaks++;
  });
  const rank = new Int32Array(present.length);
  const codes: number[] = [];
  for (let code = 0; code < present.length; code++) {
    if (present[code] === 1) rank[code] = breaks + codes.push(code) - 1;
  }
  let unique = 0;
  for (let i = 0; i < n; i++) text[i] = text[i] === -1 ? unique++ : rank[text[i]!]!;
  if (n < length) {
    return { text: text.slice(0, n), places: places.slice(0, n), breaks, codes: Int32Array.from(codes) };
  }
  return { text, places, breaks, codes: Int32Array.from(codes) };
}

function greatest(rows: readonly Int32Array[]): number {
  let most = 0;
  for (const row of rows) for (let i = 0; i < row.length; i++) if (row[i]! > most) most = row[i]!;
  return most;
}

export function sortText(text: SymbolText): SortedText {
  return { ...text, sorted: suffixArray(text.text, text.breaks + text.codes.length) };
}

export function sharedPrefixes(text: SortedText): Int32Array {
  return commonPrefixes(text.text, text.sorted);
}
