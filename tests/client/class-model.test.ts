/** The class page without a page: what is asked of the server, which answer counts, and what is due. */
import { describe, expect, it } from "vitest";
import { dueWords, hasDemo, movedWords, shownPlayers } from "../../client/class/class-model.ts";
import * as list from "../../client/class/take-list-model.ts";
import * as together from "../../client/class/together-model.ts";
import type { ClassPlayer } from "../../server/contract/class.ts";
import type { TakePage, TakeRow } from "../../server/contract/takes.ts";

const row = (id: string, more: Partial<TakeRow> = {}): TakeRow => ({
  ...{ id, title: id, player: null, playerId: null, date: null, fileName: "a.mid", tags: [], demo: false },
  ...{ chartName: null, key: "Bb", choruses: 1, notes: 3, method: "", confidence: 1, tempo: null },
  ...{ seconds: 1, createdAt: "2026-03-01T00:00:00Z", sound: false, ...more },
});
const page = (ids: readonly string[], total = ids.length, next: string | null = null): TakePage => ({
  ...{ takes: ids.map((id) => row(id)), total, next },
});
const empty = list.emptyList(true);

describe("the list of takes", () => {
  it("asks for what is typed, in the order chosen, with or without the demo class", () => {
    expect(list.listQuery(empty)).toBe("sort=newest&limit=50");
    const state = list.asking(empty, { typed: " ada & bo ", sort: "title", demo: false });
    expect(Object.fromEntries(new URLSearchParams(list.listQuery(state, "x")))).toEqual({
      ...{ sort: "title", limit: "50", q: "ada & bo", demo: "false", after: "x" },
    });
  });

  it("reads as many again as it shows, up to what the server gives", () => {
    const many = (n: number) =>
      list.answered(empty, empty, page(Array.from({ length: n }, (_, k) => `${k}`)), false);
    expect(list.listQuery(many(120))).toContain("limit=120");
    expect(list.listQuery(many(900))).toContain("limit=500");
  });

  it("adds a page to what it shows, and begins anew with another question", () => {
    const first = list.answered(empty, empty, page(["a", "b"], 103, "b"), false);
    expect([list.foundWords(first), list.moreWords(first)]).toEqual(["103 takes", "Show 50 more of 101"]);
    const both = list.answered(first, first, page(["c"], 3), true);
    expect(both.rows.map(({ id }) => id)).toEqual(["a", "b", "c"]);
    const asked = list.asking(both, { typed: "c" });
    // What is shown answers what was asked before: nothing is counted of it.
    expect(list.foundWords(asked)).toBe("Looking …");
    expect(list.foundWords({ ...asked, refused: new Error("no network") })).toBe("");
    const found = list.answered(asked, asked, page(["c"]), false);
    expect([found.rows.length, list.foundWords(found)]).toEqual([1, "one take found"]);
  });

  it("leaves a slow answer to an older question aside", () => {
    const now = list.asking(empty, { typed: "ada" });
    expect(list.answered(now, empty, page(["a"]), false)).toBe(now);
  });

  it("names a take by what it has", () => {
    expect(list.takeName(row("", { chartName: "Slow blues" }))).toBe("Slow blues");
    expect(list.takeFacts(row("a", { player: "Ada", tags: ["spring"] }))).toBe(
      "Ada · B♭ · one chorus · 3 notes · spring",
    );
    expect(list.takeFacts(row("a", { method: "click", tags: ["click", "spring"] }))).toMatch(
      /3 notes · click · spring$/,
    );
  });
});

describe("the players", () => {
  const ada: ClassPlayer = {
    ...{ id: "a", name: "Ada", takes: 1, demo: false, waiting: 0, lens: null },
    last: { id: "t", title: "T", date: "2026-03-01" },
  };

  it("are shown without the demo class where it is put away", () => {
    const state = { players: [ada, { ...ada, id: "d", demo: true }], demo: false, today: "2026-03-02" };
    expect(shownPlayers(state).map(({ id }) => id)).toEqual(["a"]);
    expect(shownPlayers({ ...state, demo: true })).toHaveLength(2);
    expect([hasDemo(state), hasDemo({ ...state, players: [ada] })]).toEqual([true, false]);
  });

  it("say what is due: a first take, one with the lens, one after two weeks without", () => {
    const due = (more: Partial<ClassPlayer>, today: string) => dueWords({ ...ada, ...more, today });
    expect(due({ last: null }, "2026-03-02")).toBe("a first take");
    const lens = { name: "Register", since: "2026-03-02", now: null, before: null };
    expect(due({ lens: { ...lens, takes: 0 } }, "2026-03-03")).toBe("a take with the lens");
    expect(due({ lens: { ...lens, takes: 1 } }, "2026-03-15")).toBe("");
    expect(due({}, "2026-03-16")).toBe("a take, the last was two weeks ago");
  });

  it("say how far the lens is reached, and what moved since the take before", () => {
    const of = (now: "reached" | "partly" | null, before: "reached" | "partly" | null) =>
      movedWords({ lens: { name: "Register", since: "2026-03-02", takes: 2, now, before } });
    expect(of("reached", "partly")).toBe("reached now, partly in the take before");
    expect(of("partly", "partly")).toBe("partly, as in the take before");
    expect(of("partly", null)).toBe("partly in the newest take");
    expect([of(null, null), movedWords({ lens: null })]).toEqual(["", ""]);
  });
});

describe("takes next to each other", () => {
  it("stand under what they have in common: their player, their month, their first letter", () => {
    const one = row("a", { player: "Ada", date: "2026-03-04", title: "evening" });
    expect(list.groupOf(one, "player")).toBe("Ada");
    expect(list.groupOf(one, "newest")).toBe("March 2026");
    expect(list.groupOf(one, "title")).toBe("E");
    expect(list.groupOf(row("b", { player: null, date: null }), "player")).toBe("No player");
    expect(list.groupOf(row("b", { date: null }), "oldest")).toBe("Without a date");
  });
});

describe("takes that are changed in numbers", () => {
  const [ada, bo] = [row("a", { player: "Ada", tags: ["duo"] }), row("b", { tags: ["duo", "slow"] })];
  const shown = list.answered(empty, empty, { takes: [ada, bo], total: 2, next: null }, false);

  it("are chosen one by one or as they are shown, and stay chosen while something else is looked for", () => {
    const one = together.choose(shown, bo, true);
    expect([together.chosenWords(one), together.allShownChosen(one)]).toEqual(["one take chosen", false]);
    const both = together.chooseShown(one, true);
    expect(together.allShownChosen(both)).toBe(true);
    expect(together.chosenTags(both)).toEqual(["duo", "slow"]);
    const asked = list.asking(both, { typed: "x" });
    const other = list.answered(asked, asked, page(["c"]), false);
    expect([...other.chosen.keys()].sort()).toEqual(["a", "b"]);
    expect(together.chooseShown(other, false).chosen.size).toBe(0);
  });

  it("are known as they are now, not as they were when they were chosen", () => {
    const both = together.chooseShown(shown, true);
    const after = list.answered(
      both,
      both,
      { takes: [row("a", { player: "Cy" })], total: 1, next: null },
      false,
    );
    expect(after.chosen.get("a")?.player).toBe("Cy");
  });

  it("are left chosen from the one on that was refused", () => {
    const under = together.oneDone(together.begun(together.chooseShown(shown, true), 2), ada);
    expect(together.chosenWords(under)).toBe("1 of 2 done …");
    expect([...together.ended(under).chosen.keys()]).toEqual(["b"]);
  });

  it("have a way back for each step: the player, the tags or the take as it was", () => {
    const steps = (take: TakeRow, act: together.TakeAct) => [
      together.stepOf(take, act).step,
      together.wayBack(take, act).step,
    ];
    expect(steps(ada, { kind: "move", player: "Bo" })).toEqual([{ player: "Bo" }, { player: "Ada" }]);
    expect(steps(bo, { kind: "move", player: "Ada" })).toEqual([{ player: "Ada" }, { player: null }]);
    expect(steps(ada, { kind: "tag", tag: "slow" })).toEqual([{ tags: ["duo", "slow"] }, { tags: ["duo"] }]);
    expect(steps(ada, { kind: "tag", tag: "duo" })).toEqual([{ tags: ["duo"] }, { tags: ["duo"] }]);
    expect(steps(bo, { kind: "untag", tag: "duo" })).toEqual([{ tags: ["slow"] }, { tags: ["duo", "slow"] }]);
    expect(steps(bo, { kind: "delete" })).toEqual(["delete", "restore"]);
    expect(steps(ada, { kind: "rename", title: "March" })).toEqual([{ title: "March" }, { title: "a" }]);
  });

  it("are told apart by their number where several get one name", () => {
    const act = { kind: "rename", title: "March" } as const;
    expect([ada, bo].map((one, i) => together.stepOf(one, act, i, 2).step)).toEqual([
      { title: "March 1" },
      { title: "March 2" },
    ]);
    expect(together.doneWords([ada], act)).toBe("“a” is called “March” now.");
    expect(together.doneWords([ada, bo], act)).toBe("Two takes are called “March 1” and on now.");
  });

  it("are told in words", () => {
    expect(together.doneWords([ada], { kind: "delete" })).toBe("“a” is deleted.");
    expect(together.doneWords([ada, bo], { kind: "move", player: "Cy" })).toBe("Two takes are moved to Cy.");
    expect(together.doneWords([ada, bo], { kind: "untag", tag: "duo" })).toBe(
      "Two takes have the tag “duo” no longer.",
    );
  });
});
