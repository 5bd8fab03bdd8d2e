import { describe, expect, it } from "vitest";
import { discoveryFigures, PLANTED, VARIED } from "../reports/motifs.report.ts";

/** Bounds on a small sample; `npm run report -- motifs` prints the figures of a large one. */
describe("motifs planted in Markov noise", () => {
  it.each([
    ["exact", PLANTED, 0.9],
    ["transposed", PLANTED, 0.9],
    ["varied", VARIED, 0.75],
  ] as const)("%s are found", (planting, shape, recall) => {
    const leaping = discoveryFigures(planting, { ...shape, spread: 3 }, 12, 101);
    const stepwise = discoveryFigures(planting, { ...shape, spread: 1.5 }, 12, 201);
    const found = leaping.recall * leaping.planted + stepwise.recall * stepwise.planted;
    expect(found / (leaping.planted + stepwise.planted)).toBeGreaterThanOrEqual(recall);
    expect(Math.min(leaping.precision, stepwise.precision)).toBeGreaterThanOrEqual(0.8);
  });

  it("long takes of pure noise hold no more false ideas than short ones", () => {
    let told = 0;
    for (const spread of [3, 1.5]) {
      told += discoveryFigures("none", { ...PLANTED, notes: 3000, spread }, 5, 1001).told;
    }
    // At most one false motif in twenty takes.
    expect(told).toBeLessThanOrEqual(1);
  });
});
