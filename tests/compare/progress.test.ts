import { describe, expect, it } from "vitest";
import { progressOf } from "../../src/compare/index.ts";
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
    expect(measure("rests").sentence).toBe("Share of rest: rises at every step, as hoped.");
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

  it("say nothing of a trend with two takes", () => {
    const two = progressOf(takes.slice(0, 2));
    expect(two.measures[0]!.trend).toBeNull();
    expect(two.measures[0]!.sentence).toContain("too few takes");
  });
});
