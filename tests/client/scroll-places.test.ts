import { describe, expect, test } from "vitest";
import { piecesForPaper } from "../../client/views/chorus-layout.ts";
import { isSeen, leading, nearest } from "../../client/views/scroll-places.ts";

// A frame of 600 pixels whose first 38 lie under the chord names; heights are counted by hand.
const frame = (top: number) => ({ top, height: 600, covered: 38 });

describe("a picture that scrolls in its frame", () => {
  test("a row is seen where none of it lies under the chord names or below the edge", () => {
    expect(isSeen({ top: 1038, bottom: 1600 }, frame(1000))).toBe(true);
    expect(isSeen({ top: 1037, bottom: 1100 }, frame(1000))).toBe(false);
    expect(isSeen({ top: 1500, bottom: 1601 }, frame(1000))).toBe(false);
  });

  test("stays where it is for what is seen", () => {
    expect(nearest({ top: 1100, bottom: 1175 }, frame(1000))).toBe(1000);
  });

  test("goes no further than it takes to see a row whole, upwards and downwards", () => {
    for (const row of [
      { top: 500, bottom: 575 },
      { top: 1030, bottom: 1105 },
      { top: 1580, bottom: 1655 },
      { top: 3000, bottom: 3075 },
    ]) {
      const top = nearest(row, frame(1000));
      expect(isSeen(row, frame(top))).toBe(true);
      // A row's height less, and it would not be.
      const back = top < 1000 ? top + 75 : top - 75;
      expect(isSeen(row, frame(back))).toBe(false);
    }
  });

  test("never goes above the first row", () => {
    expect(nearest({ top: 38, bottom: 113 }, frame(700))).toBe(0);
    expect(leading({ top: 38, bottom: 113 }, frame(700))).toBe(0);
  });

  test("leads with the row that is heard, so that the next ones are seen with it", () => {
    const row = { top: 3000, bottom: 3075 };
    const top = leading(row, frame(1000));
    expect(isSeen(row, frame(top))).toBe(true);
    expect(isSeen({ top: 3400, bottom: 3475 }, frame(top))).toBe(true);
  });
});

describe("a long picture on paper", () => {
  const rows = (n: number) => Array.from({ length: n }, (_, i) => i + 1);
  const lines = (n: number) =>
    Array.from({ length: n }, (_, i) => ({ bars: [i], rows: [] as readonly number[], y: 0 }));
  /** Chord names 38, a row 70 with 5 below it, 20 between lines. */
  const tall = (rowCount: number, lineCount: number) => lineCount * (38 + rowCount * 75 + 20);

  test.each([
    [50, 1],
    [50, 4],
    [1, 25],
    [3, 40],
    [20, 30],
  ])("%i choruses in %i lines: each piece fits, and every row is on one of them once", (choruses, count) => {
    const all = lines(count).map((line) => ({ ...line, rows: rows(choruses) }));
    const pieces = piecesForPaper({ rows: rows(choruses), lines: all, rowHeight: 70 }, 1200);
    const told = pieces.flatMap((piece) =>
      piece.rows.flatMap((row) => piece.lines.map((line) => `${row}.${line.bars[0]}`)),
    );
    expect(new Set(told).size).toBe(choruses * count);
    expect(told).toHaveLength(choruses * count);
    for (const piece of pieces) expect(tall(piece.rows.length, piece.lines.length)).toBeLessThanOrEqual(1200);
  });

  test("a bar after the form, in which one chorus ends, takes no room from the others", () => {
    const form = { bars: [1], rows: rows(50), y: 0 };
    const coda = { bars: [13], rows: [50], y: 0 };
    const pieces = piecesForPaper({ rows: rows(50), lines: [form, coda], rowHeight: 70 }, 1200);
    // (1200 - 58) / 75 rows on a sheet.
    expect(pieces.map((piece) => piece.rows.length)).toEqual([15, 15, 15, 5]);
    expect(pieces.every((piece) => piece.lines.length === 2)).toBe(true);
  });

  test("a row that is taller than the sheet still stands on one", () => {
    const pieces = piecesForPaper(
      { rows: rows(2), lines: lines(1).map((line) => ({ ...line, rows: rows(2) })), rowHeight: 900 },
      500,
    );
    expect(pieces.map((piece) => piece.rows)).toEqual([[1], [2]]);
  });
});
