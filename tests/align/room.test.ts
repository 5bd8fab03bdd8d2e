import { expect, test } from "vitest";
import { Room } from "../../src/align/lattice/room.ts";

// An hour given its chart alone needs rows of millions of numbers: rows that double would be half empty.
test("small rows double, large ones are at most a quarter longer than they need be", () => {
  const room = new Room();
  expect(room.take("small", Uint8Array, 5000).length).toBe(8192);
  for (const length of [1_100_000, 3_000_000, 17_000_000]) {
    const row = new Room().take("large", Uint8Array, length);
    expect(row.length).toBeGreaterThanOrEqual(length);
    expect(row.length).toBeLessThanOrEqual(1.25 * length + 1);
  }
});

test("a row that is taken again is the same, and one that is cleared is empty as far as it is asked for", () => {
  const room = new Room();
  const row = room.clear("row", Float64Array, 4096);
  row.fill(7);
  expect(room.take("row", Float64Array, 10)).toBe(row);
  expect(room.clear("row", Float64Array, 10)).toBe(row);
  expect([row[9], row[10]]).toEqual([0, 7]);
});
