/** Sides of a comparison as they are found by typing; what is expected follows from the rows that each test makes. */
import { describe, expect, it } from "vitest";
import { classRow, MOST_SIDES, rowsFrom, sidesFound, takeSide } from "../../client/compare/side-model.ts";
import type { TakeRow } from "../../server/contract/takes.ts";

const row = (id: string, more: Partial<TakeRow>): TakeRow =>
  ({ id, player: null, playerId: null, title: id, date: null, tags: [], choruses: 1, ...more }) as TakeRow;

const ANNA = { player: "Anna", playerId: "p1" };
const BRITT = { player: "Britt", playerId: "p2" };

describe("what is found", () => {
  const rows = [
    row("a", { ...ANNA, title: "Blues", tags: ["monday"] }),
    row("b", { ...ANNA, title: "Blues", tags: ["monday"] }),
    row("c", { ...BRITT, title: "Waltz" }),
  ];

  it("are the takes, then players and tags whose names hold each typed word", () => {
    expect(sidesFound(rows, "anna").map(({ value }) => value)).toEqual(["a", "b", "c", "player:p1"]);
    expect(sidesFound(rows, "mon").map(({ value }) => value)).toEqual(["a", "b", "c", "tag:monday"]);
    expect(sidesFound(rows, "").map(({ value }) => value)).toEqual([
      ...["a", "b", "c", "player:p1", "player:p2", "tag:monday"],
    ]);
  });

  it("has no two sides of one name", () => {
    const texts = sidesFound(rows, "").map(({ text }) => text);
    expect(new Set(texts).size).toBe(texts.length);
  });
});

describe("whole rows", () => {
  it("are a take's choruses, where there are two, and its player's takes in time", () => {
    const own = [row("late", { ...ANNA, date: "2026-05-02" }), row("early", { ...ANNA, date: "2026-04-01" })];
    expect(rowsFrom(takeSide(row("late", { ...ANNA, choruses: 2 })), own).map(({ sides }) => sides)).toEqual([
      ["late:1", "late:2"],
      ["early", "late"],
    ]);
    expect(rowsFrom(takeSide(row("alone", { choruses: 1 })), [])).toEqual([]);
  });

  it("hold no more sides than are compared at once", () => {
    const [choruses] = rowsFrom(takeSide(row("long", { choruses: 50 })), []);
    expect(choruses!.sides).toHaveLength(MOST_SIDES);
  });

  it("are the players of a class, where there are two", () => {
    const both = [row("a", { ...ANNA, tags: ["x"] }), row("b", { ...BRITT, tags: ["x"] })];
    expect(classRow("x", both).map(({ sides }) => sides)).toEqual([["player:p1", "player:p2"]]);
    expect(classRow("x", both.slice(1))).toEqual([]);
  });
});
