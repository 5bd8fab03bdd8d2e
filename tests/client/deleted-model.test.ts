/** What was deleted, as it is told: how much, whose, and until when it can be brought back. */
import { expect, test } from "vitest";
import {
  deletedFacts,
  headWords,
  NOTHING_DELETED,
  read,
  refused,
  restored,
  restoring,
} from "../../client/class/deleted-model.ts";

const TAKE = {
  ...({ kind: "take", id: "a", name: "Rain on tin", player: "Ada", takes: 1 } as const),
  ...{ deletedAt: "2026-03-01T14:02:10Z", goesAt: "2026-03-01T14:32:10Z" },
};
const PLAYER = { ...TAKE, kind: "player", id: "p", name: "Bo", player: null, takes: 3 } as const;

test("says how many, whose and until when, by the clock on the wall", () => {
  const state = read(NOTHING_DELETED, [TAKE, PLAYER]);
  expect(headWords(state)).toBe("Deleted lately: one take and one player");
  expect(headWords(read(state, [TAKE, { ...TAKE, id: "b" }]))).toBe("Deleted lately: two takes");
  // Central European Time is an hour ahead of UTC in March [IANA time zone database].
  expect(deletedFacts(TAKE, "Europe/Berlin")).toBe(
    "take of Ada · deleted at 15:02 · gone for good after 15:32",
  );
  expect(deletedFacts({ ...TAKE, player: null }, "UTC")).toMatch(/^take · deleted at 14:02/);
  expect(deletedFacts(PLAYER, "UTC")).toMatch(/^player, with three takes/);
});

test("what comes back leaves the list, and what is refused stays", () => {
  const state = restoring(read(NOTHING_DELETED, [TAKE, PLAYER]), "a");
  expect(state.coming).toEqual(["a"]);
  expect(restored(state, "a")).toMatchObject({ rows: [PLAYER], coming: [] });
  expect(refused(state, "a", new Error("no"))).toMatchObject({ rows: [TAKE, PLAYER], coming: [] });
});
