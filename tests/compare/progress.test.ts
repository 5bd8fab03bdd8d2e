import { describe, expect, it } from "vitest";
import { compareSides, progressOf, sampleOf } from "../../src/compare/index.ts";
import { LENSES, throughLens } from "../../src/lens/index.ts";
import { demoAccount, demoClass } from "../demo-class.ts";

const takes = demoClass.takes
  .filter((take) => take.tags.includes("progress"))
  .map((take) => ({
    id: take.id,
    date: take.date,
    title: take.title,
    analysis: demoAccount(take, { goals: [{ text: "Leave room", check: { kind: "rests", least: 0.3 } }] }),
  }));

describe("three takes of one player over eight weeks", () => {
  const progress = progressOf([takes[2]!, takes[0]!, takes[1]!]);
  const measure = (id: string) => progress.measures.find((one) => one.id === id)!;

  it("stand in the order of their dates", () => {
    expect(progress.takes.map((take) => take.id)).toEqual(["tilda-week-1", "tilda-week-4", "tilda-week-8"]);
  });

  // The generator made her leave more silence from take to take, and keep an idea only in the last.
  it("show what the player was made to learn: more rest, an idea that returns", () => {
    expect(measure("rests").trend?.words).toBe("rises at every step");
    expect(measure("rests").words).toBe("clearly more, as hoped");
    expect(measure("rests").sentence).toMatch(
      /^Share of rest: clearly more, as hoped \(\d+ % to \d+ %\), most of all with “[^”]+”\.$/,
    );
    const [first, , last] = measure("motifs").points.map((point) => point.value!);
    expect(last!).toBeGreaterThan(first! + 0.2);
  });

  it("tell which findings are new and which are gone", () => {
    const state = (id: string) => progress.findings.find((one) => one.id === id)?.state;
    expect(state("roots-too-safe")).toBe("gone");
    expect(state("motif-returns")).toBe("new");
  });

  it("tell when the goal was reached", () => {
    expect(progress.goals.map((goal) => goal.state)).toEqual(["open", "reached", "reached"]);
  });

  it("point at a best moment of each take that earned one, and it can be played", () => {
    const earned = takes.filter(({ analysis }) => analysis.findings.some(({ kind }) => kind === "works"));
    expect(progress.best).toHaveLength(earned.length);
    expect(earned.length).toBeGreaterThan(0);
    for (const best of progress.best) expect(best.evidence.length).toBeGreaterThan(0);
  });

  it("tell of two takes what comparing the two tells", () => {
    const two = progressOf(takes.slice(0, 2));
    expect(two.measures[0]!.trend).toBeNull();
    const [a, b] = takes.slice(0, 2).map(({ title, analysis }) => sampleOf(analysis, { name: title }));
    for (const { id, change } of two.measures.filter(({ change: { verdict } }) => verdict !== null)) {
      const compared = compareSides(b!, a!, 1).measures.find(
        (one) => one.id === (id === "range" ? "breadth" : id),
      );
      expect([id, change.verdict]).toEqual([id, compared!.verdict]);
    }
  });

  it("tell of the lens in the same words", () => {
    const lens = LENSES.find(({ id }) => id === "rests-and-answers")!;
    const through = takes.map(({ analysis, ...take }) => ({
      ...take,
      analysis: { ...analysis, lens: throughLens(analysis, lens, null) },
    }));
    const told = progressOf(through);
    // Rest rises over the quarter that a conversation needs, where phrases answer one another as well.
    expect(told.takes.map((take) => take.lens?.state)).toEqual(["partly", "reached", "reached"]);
    expect(told.lens!.sentences[0]).toMatch(/^Time in which the line rests: clearly more, as hoped/);
    expect(progress.lens).toBeNull();
  });

  it("leave takes on another chart out of what they say, and mark them", () => {
    const other = demoClass.takes.find(({ id }) => id === "tilda-lantern-yard")!;
    const more = { id: other.id, date: other.date, title: other.title, analysis: demoAccount(other) };
    const four = progressOf([...takes, more]);
    expect(four.takes.map(({ chart }) => chart.same)).toEqual([true, true, true, false]);
    expect(four.measures.map(({ sentence }) => sentence)).toEqual(
      progress.measures.map(({ sentence }) => sentence),
    );
    // Its own values stay on the page.
    expect(four.measures[0]!.points).toHaveLength(4);
  });
});
