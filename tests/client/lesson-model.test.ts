/** Preparing a lesson: what an address asks for, and what is handed out to whom. */
import { describe, expect, it } from "vitest";
import {
  addressOf,
  allTaken,
  chosen,
  handedOut,
  handedWords,
  handingOf,
  handingOut,
  opened,
  playerTaken,
  read,
  refused,
  shapeTaken,
  unhanded,
} from "../../client/lesson/lesson-model.ts";
import { formChart } from "../../src/chart/index.ts";
import { BUILT_IN_SHAPES } from "../../src/hands/index.ts";
import { preparedLesson } from "../../src/practice/index.ts";

const start = {
  shapeNames: BUILT_IN_SHAPES.map(({ name }) => name),
  players: [
    { id: "ida", name: "Ida" },
    { id: "ole", name: "Ole" },
  ],
  ownLenses: [{ id: "own", name: "Room" }],
  handedOn: "2026-03-02",
};
const open = (query = "") => opened(start, new URLSearchParams(query));
const sheet = preparedLesson({
  ...{ chart: formChart("blues-basic", "F"), level: "beginner", feel: "even", lens: null },
  shapes: BUILT_IN_SHAPES.slice(0, 1),
});

describe("a lesson that is prepared", () => {
  it("is in its address, and opens from it as it was", () => {
    const state = shapeTaken(
      chosen(open(), { level: "advanced", feel: "even", lens: "own" }),
      "minor pentatonic",
      true,
    );
    const query = addressOf(state, { form: "blues-basic", key: "F" });
    expect(query.get("form")).toBe("blues-basic");
    expect(open(query.toString()).choice).toEqual(state.choice);
  });

  it("takes what an address gets wrong for the usual", () => {
    expect(open("level=master&feel=x&lens=none&shape=claw&player=nobody")).toEqual(open());
  });

  it("remembers through a reload who is to get it and when, unless the address names somebody", () => {
    const day = "2026-03-02";
    const state = { ...playerTaken(open(), "ole", true), handedOn: "2026-03-09" };
    const left = unhanded(state, day);
    expect(opened(start, new URLSearchParams(), left)).toEqual(state);
    expect(opened(start, new URLSearchParams("player=ida"), left).chosen).toEqual(["ida"]);
    // A player who was deleted meanwhile is not handed anything; a day that was not chosen is the one that is.
    expect(opened(start, new URLSearchParams(), { chosen: ["nobody"], handedOn: null })).toEqual(open());
    expect(unhanded(open(), day)).toBeNull();
    expect(unhanded(handedOut(playerTaken(open(), "ole", true)), day)).toBeNull();
  });

  it("is handed out only when it is seen, and somebody gets it", () => {
    expect(handingOf(playerTaken(open(), "ida", true))).toBeNull();
    expect(handingOf(read(open(), sheet))).toBeNull();
    const ready = playerTaken(read(open(), sheet), "ida", true);
    expect(handingOf(ready)).toMatchObject({ players: ["ida"], handedOn: "2026-03-02" });
    expect(handingOf({ ...ready, handedOn: "" })).toBeNull();
    expect(handingOf(ready)!.chart).toContain("F7");
  });

  it("goes to the whole class at once, or to nobody again", () => {
    const all = allTaken(playerTaken(open(), "ole", true));
    expect([...all.chosen].sort()).toEqual(["ida", "ole"]);
    expect(allTaken(all).chosen).toEqual([]);
  });

  it("keeps what was chosen where the server refuses, and says who has got it where it does not", () => {
    const asked = handingOut(playerTaken(read(open("player=ole"), sheet), "ida", true));
    expect(refused(asked, new Error("x")).chosen).toEqual(asked.chosen);
    const done = handedOut(asked);
    expect(done.chosen).toEqual([]);
    expect(handedWords(done.handed)).toMatch(/^Handed out to Ida and Ole\./);
    expect(playerTaken(done, "ida", true).handed).toEqual([]);
  });
});
