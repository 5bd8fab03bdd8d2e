import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { commonPrefixes, suffixArray, visitRepeats } from "../../src/motif/index.ts";
import { naivePrefixes, naiveRepeats, naiveSuffixes } from "./naive.ts";

const text = (alphabet: number, maxLength: number) =>
  fc.array(fc.integer({ min: 0, max: alphabet - 1 }), { maxLength });

function repeatsOf(symbols: readonly number[]) {
  const row = Int32Array.from(symbols);
  const sorted = suffixArray(row, 1 + Math.max(0, ...symbols));
  const found: string[] = [];
  visitRepeats(row, sorted, commonPrefixes(row, sorted), 1, (length, from, to) => {
    const starts = Array.from(sorted.subarray(from, to + 1)).sort((a, b) => a - b);
    found.push(`${length}: ${starts.join(" ")}`);
  });
  return found.sort();
}

describe("the suffix array", () => {
  it("of a row of notes is that of a plain sort of all its endings", () => {
    for (const alphabet of [1, 2, 3, 12]) {
      fc.assert(
        fc.property(text(alphabet, 80), (symbols) => {
          expect([...suffixArray(Int32Array.from(symbols), alphabet)]).toEqual(naiveSuffixes(symbols));
        }),
      );
    }
  });

  it("stands on rows that are hard to sort: one symbol, two in turn, a row over and over", () => {
    const rows = [
      new Array<number>(300).fill(0),
      Array.from({ length: 301 }, (_, i) => i % 2),
      Array.from({ length: 300 }, (_, i) => [0, 1, 0, 2, 0, 1][i % 6]!),
      Array.from({ length: 200 }, (_, i) => 200 - i),
    ];
    for (const row of rows) {
      expect([...suffixArray(Int32Array.from(row), 201)]).toEqual(naiveSuffixes(row));
    }
  });

  it("has common beginnings as counted by hand", () => {
    fc.assert(
      fc.property(text(3, 80), (symbols) => {
        const sorted = suffixArray(Int32Array.from(symbols), 3);
        expect([...commonPrefixes(Int32Array.from(symbols), sorted)]).toEqual(
          naivePrefixes(symbols, [...sorted]),
        );
      }),
    );
  });
});

describe("maximal repeats", () => {
  it("are all those, and only those, that comparing every stretch with every other gives", () => {
    for (const alphabet of [2, 3, 6]) {
      fc.assert(
        fc.property(text(alphabet, 40), (symbols) => {
          expect(repeatsOf(symbols)).toEqual(naiveRepeats(symbols));
        }),
      );
    }
  });
});
