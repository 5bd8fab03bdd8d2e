/** One corpus as it is looked at, without a page. */
import { describe, expect, it } from "vitest";
import * as corpus from "../../client/corpus/corpus-model.ts";

const at = (address: string) => corpus.openedAt(new URLSearchParams(address));
const row = (take: string, more: object = {}) => ({
  ...{ take, title: take, player: null, values: {}, scores: {} },
  ...more,
});
const READ = {
  whole: { takes: 9, groups: [{ value: "Ada" }, { value: "" }] },
  summary: { takes: 1, players: 1, notes: 1204, seconds: 90 },
  spreads: { rows: [row("a", { player: "Ada" }), row("b")], limit: 2.5, measures: [] },
  vocabulary: { ideas: [], takes: 1 },
  failures: [],
  repeated: [],
} as unknown as corpus.CorpusRead;

describe("what is chosen of a corpus", () => {
  it("is the address, and the address is it", () => {
    for (const address of ["by=player", "by=key&part=Bb&take=a&kind=rhythm&alike=degree&find=b3+9"]) {
      expect(corpus.corpusQuery(at(address))).toBe(address);
    }
    expect(corpus.corpusQuery(at("colour=red"))).toBe("by=player");
  });

  it("lets go of its group when the takes are grouped otherwise", () => {
    expect(corpus.groupBy(at("by=key&part=Bb&take=a"), "tag").choice).toMatchObject({
      by: "tag",
      part: "",
      take: "a",
    });
  });

  it("is let go of by pressing its sign again; a group that is no set of takes cannot be pressed", () => {
    const once = corpus.pressTake(corpus.pressPart(at("by=key"), "Bb"), "a");
    expect(once.choice).toMatchObject({ part: "Bb", take: "a" });
    expect(corpus.pressTake(corpus.pressPart(once, "Bb"), "a").choice).toMatchObject({ part: "", take: "" });
    const chords = at("by=chord");
    expect(corpus.pressPart(chords, "C7")).toBe(chords);
  });

  it("means the takes of the group, or all", () => {
    expect(corpus.partMeant(at("by=decade&part=1950s"))).toEqual({ from: "1950-01-01", to: "1959-12-31" });
    expect(corpus.partMeant(at("by=tempo&part=120-160"))).toEqual({ slowest: 120, fastest: 160 });
    expect(corpus.partMeant(at("by=player"))).toEqual({});
  });

  it("asks for the pattern that it names, by steps where it names no viewpoint", () => {
    expect(corpus.patternAsked(at("by=player"))).toBeNull();
    expect(corpus.patternAsked(at("find=-1+-2"))).toEqual({
      viewpoint: "chromatic interval",
      symbols: [-1, -2],
    });
  });
});

describe("what was read of a corpus", () => {
  it("is passed over when something else was chosen meanwhile; pointing out a take asks for nothing new", () => {
    const asked = corpus.reading(at("by=player"));
    expect(corpus.answered(asked, asked.choice, READ)).toMatchObject({ read: READ, reading: false });
    const other = corpus.groupBy(asked, "key");
    expect(corpus.answered(other, asked.choice, READ)).toBe(other);
    const pointed = corpus.pressTake(asked, "a");
    expect(corpus.answered(pointed, asked.choice, READ).read).toBe(READ);
  });

  it("offers the groups that are sets of takes", () => {
    const read = corpus.answered(at("by=player"), at("by=player").choice, READ);
    expect(corpus.groupsToChoose(read)).toEqual(["Ada"]);
    expect(corpus.groupsToChoose(at("by=player"))).toEqual([]);
  });

  it("is told in a line, also when there is nothing yet", () => {
    const read = { ...at(""), read: READ };
    expect(corpus.factsWords(read)).toBe("One take by one player, 1,204 solo notes, 1:30 of playing");
    const whole = { ...READ.whole, takes: 0 };
    expect(corpus.factsWords({ ...read, read: { ...READ, whole } })).toContain("No take has been analysed");
  });

  it("points out a take by title and player while it is among those that are meant", () => {
    const read = { ...at("take=a"), read: READ };
    expect(corpus.nameOf(corpus.pointedOut(read)!)).toBe("a, Ada");
    expect(corpus.pointedOut(corpus.pressTake(read, "z"))).toBeNull();
  });
});

describe("files that the corpus has already", () => {
  it("are told when a job ends, and only then", () => {
    expect(corpus.endedWords({ done: 9, failed: 0, repeated: 0 })).toBe("Nine takes analysed.");
    expect(corpus.endedWords({ done: 1, failed: 2, repeated: 1 })).toBe(
      "One take analysed, two could not be read, one was left out: the corpus has it already.",
    );
    expect(corpus.endedWords({ done: 1, failed: 0, repeated: 3 })).toContain("three were left out");
  });

  it("stand under the take that counts, in the order in which they came", () => {
    const file = (fileName: string, take: string) => ({ item: fileName, job: "j", fileName, take });
    expect(corpus.repeatsByTake([file("c.mid", "x"), file("a.mid", "y"), file("b.mid", "x")])).toEqual([
      ["x", ["c.mid", "b.mid"]],
      ["y", ["a.mid"]],
    ]);
  });
});
