import { describe, expect, test } from "vitest";
import { indexAccount } from "../../client/shell/account-index.ts";
import { layChoruses } from "../../client/views/chorus-layout.ts";
import type { Analysis } from "../../src/account.ts";
import { sampleAccount } from "./sample-account.ts";

/** A made-up blues of three choruses whose first note is moved to before the first bar, its last to behind the form. */
function withEnds(pickup: boolean, coda: boolean): Analysis {
  const account = sampleAccount({ choruses: 3, notesPerBar: 2 });
  const solo = account.notes.filter((note) => note.solo);
  const [first, last] = [solo[0]!, solo.at(-1)!];
  const moved = (note: (typeof solo)[number]) => {
    if (pickup && note === first) return { ...note, bar: 0 };
    if (coda && note === last) return { ...note, bar: 13 };
    return note;
  };
  return { ...account, notes: account.notes.map(moved) };
}

const lay = (account: Analysis, width: number) => {
  const index = indexAccount(account);
  return layChoruses(index, width, { zoom: null, rows: index.choruses, above: 0, right: 0 });
};

describe("the lines of the chorus page", () => {
  test("on a phone the pickup stands before bar 1 in its line, and only that line is closer set", () => {
    const [bare, own] = [lay(withEnds(false, false), 390), lay(withEnds(true, false), 390)];
    expect(own.lines).toHaveLength(bare.lines.length);
    expect(own.height).toBe(bare.height);
    expect(own.lines[0]!.bars).toEqual([0, 1, 2, 3, 4]);
    expect(own.cell(1, 0)!.x).toBeLessThan(own.cell(1, 1)!.x);
    expect(own.cell(1, 4)!.width).toBeLessThan(bare.cell(1, 4)!.width);
    expect(own.cell(1, 5)).toEqual(bare.cell(1, 5));
    for (const bar of [0, 1, 2, 3, 4]) {
      const { x, width } = own.cell(2, bar)!;
      expect(x + width).toBeLessThanOrEqual(390);
    }
  });

  test("a bar behind the form has a row for the chorus that ends in it, and for no other", () => {
    const own = lay(withEnds(false, true), 1000);
    expect(own.lines.at(-1)).toMatchObject({ bars: [13], rows: [3] });
    expect(own.cell(3, 13)).not.toBeNull();
    expect(own.cell(1, 13)).toBeNull();
  });
});
