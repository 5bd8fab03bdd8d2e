/** A search and its pattern, without a page. */
import { describe, expect, it } from "vitest";
import * as pattern from "../../client/search/pattern-model.ts";
import * as search from "../../client/search/search-model.ts";
import type { IdeaRow } from "../../server/contract/library.ts";
import type { Found } from "../../server/contract/pattern.ts";

const idea = (id: string, viewpoint: "degree" | "rhythm", symbols: (number | string)[]) =>
  ({ id, name: id, pattern: { viewpoint, symbols, notes: symbols.length } }) as unknown as IdeaRow;
const IDEAS = [idea("gate", "degree", ["b3", "9", "1"]), idea("walk", "rhythm", ["0.5 beats"])];
const at = (address: string, picked: pattern.PickedNotes | null = null) =>
  search.firstSearch(new URLSearchParams(address), IDEAS, picked);
const empty = at("").pattern;
const PICKED = { notes: [{ pitch: 60 }, { pitch: 62 }], names: ["C4", "D4"], words: "two notes" };

describe("a search by its address", () => {
  it("waits to be played where the address says nothing", () => {
    expect(search.isAsked(at(""))).toBe(false);
    expect(at("")).toMatchObject({ edits: 0, within: "all" });
  });

  it("is the one that the address was made of", () => {
    const asked = { ...at(""), edits: 2, within: "player:ada" };
    const found = { viewpoint: "degree", symbols: ["b3", "9", "1"], notes: 3 } as const;
    const again = at(search.addressOf({ ...found, symbols: [...found.symbols] }, asked));
    expect(again).toMatchObject({ edits: 2, within: "player:ada", pattern: { way: "write" } });
    expect(again.pattern.viewpoint).toBe("degree");
    expect(pattern.askedPattern(again.pattern, IDEAS)).toEqual({ symbols: ["b3", "9", "1"] });
  });

  it("takes an idea in the viewpoint that it was kept in, and notes that were picked before all else", () => {
    const walk = at("idea=walk&viewpoint=degree").pattern;
    expect([walk.way, walk.viewpoint, walk.idea]).toEqual(["idea", "rhythm", "walk"]);
    const picked = at("idea=walk&viewpoint=contour", PICKED).pattern;
    expect([picked.way, picked.viewpoint]).toEqual(["picked", "contour"]);
    expect(pattern.askedPattern(picked, IDEAS)).toEqual({ notes: PICKED.notes, over: null });
  });

  it("passes over an unknown viewpoint, idea and number of edits", () => {
    const odd = at("viewpoint=colour&idea=none&edits=9");
    expect([odd.pattern.viewpoint, odd.pattern.way, odd.edits]).toEqual(["chromatic interval", "play", 0]);
  });

  it("looks in one take, a player's takes, a corpus, or all", () => {
    const place = (within: string) => search.searchPlace({ ...at(""), within });
    expect(place("all")).toEqual({ corpus: null, takes: {} });
    expect(place("take:a:b")).toEqual({ corpus: null, takes: { take: "a:b" } });
    expect(place("player:ada")).toEqual({ corpus: null, takes: { player: "ada" } });
    expect(place("corpus:solos")).toEqual({ corpus: "solos", takes: {} });
  });

  it("puts what was found away when the next search is refused", () => {
    const found = search.searched(search.searching(at("")), { found: 0, hits: [] } as unknown as Found);
    expect([found.searching, found.found?.found]).toEqual([false, 0]);
    const refused = search.searchRefused(search.searching(found), new Error("no"));
    expect([refused.searching, refused.found]).toEqual([false, null]);
    expect(search.searching(refused).refused).toBeNull();
  });
});

describe("a pattern that is played", () => {
  const played = [60, 63, 60, 67].reduce(pattern.strike, empty);

  it("is asked for note after note, an eighth each until another length is chosen", () => {
    const longer = pattern.changePlayed(played, 1, { beats: 1.5 });
    const asked = pattern.askedPattern(longer, IDEAS);
    expect("notes" in asked && asked.notes.map(({ pitch, position }) => [pitch, position])).toEqual([
      [60, 0],
      [63, 0.5],
      [60, 2],
      [67, 2.5],
    ]);
  });

  it("needs two notes", () => {
    expect(() => pattern.askedPattern(pattern.strike(empty, 60), IDEAS)).toThrow("Play two notes or more");
    expect(pattern.clearPlayed(played).played).toEqual([]);
    expect(pattern.takeBackNote(played).played).toHaveLength(3);
  });

  it("has its degrees over the chord that is named, where degrees are looked for", () => {
    const over = (viewpoint: "degree" | "contour") =>
      pattern.askedPattern(pattern.lookAt({ ...played, chord: "Gm7" }, viewpoint), IDEAS);
    expect(over("degree")).toMatchObject({ over: "Gm7" });
    expect(over("contour")).toMatchObject({ over: null });
  });

  it("is fingered from the thumb up until fingers are chosen, where fingers are looked for", () => {
    const fingered = pattern.changePlayed(pattern.lookAt(played, "finger"), 0, { finger: 3 });
    const asked = pattern.askedPattern(fingered, IDEAS);
    expect("notes" in asked && asked.notes.map(({ finger }) => finger)).toEqual([3, 2, 3, 4]);
  });

  it("marks each key with its places, of more than two the first", () => {
    expect([...pattern.ordersOf(played)]).toEqual([
      [60, "1 3"],
      [63, "2"],
      [67, "4"],
    ]);
    const many = [60, 60, 60].reduce(pattern.strike, empty);
    expect([...pattern.ordersOf(many).values()]).toEqual(["1…"]);
  });
});

describe("a pattern from the ideas, or written", () => {
  it("turns to the idea's viewpoint as soon as ideas are looked at", () => {
    const turned = pattern.choosePatternWay(empty, "idea", IDEAS);
    expect([turned.idea, turned.viewpoint]).toEqual(["gate", "degree"]);
    expect(pattern.chooseIdea(turned, "walk", IDEAS).viewpoint).toBe("rhythm");
    expect(pattern.ideaWords(turned, IDEAS)).toBe("three notes: ♭3 9 1");
  });

  it("says what to do where there is none", () => {
    const none = pattern.choosePatternWay({ ...empty, idea: null }, "idea", []);
    expect(pattern.ideaWords(none, [])).toContain("No idea is kept yet");
    expect(() => pattern.askedPattern(none, [])).toThrow("No idea is kept yet");
    const write = { ...empty, way: "write", written: " " } as const;
    expect(() => pattern.askedPattern(write, IDEAS)).toThrow("Write a pattern");
  });

  it("is written as a third up and two steps for a start, steps up with their sign", () => {
    expect(pattern.askedPattern({ ...empty, way: "write" }, IDEAS)).toEqual({ symbols: [3, 2, 1] });
    expect(empty.written).toBe("+3 +2 +1");
    expect(at("symbols=-1+2").pattern.written).toBe("-1 +2");
  });
});
