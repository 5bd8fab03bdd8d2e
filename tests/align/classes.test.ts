import { describe, expect, test } from "vitest";
import { classFigures } from "../reports/align.report.ts";

// The aims are those that the program sets itself; the full count is printed by `npm run report -- align`.
// The performances are simulated (tests/align/simulator, figures and their literature in figures.ts).
describe("simulated takes are laid over their charts", () => {
  test("a click is found to within 50 ms at every bar line", () => {
    const figures = classFigures("click", 10, 10);
    expect(figures.barsWithin).toBe(1);
    expect(figures.choruses).toBe(1);
    expect(figures.places).toBeGreaterThan(0.95);
  });

  test("a steady beat without a click is followed through drift, pauses and lost beats", () => {
    const figures = classFigures("steady", 12, 20);
    expect(figures.beats).toBeGreaterThanOrEqual(0.97);
    expect(figures.choruses).toBeGreaterThanOrEqual(0.98);
  });

  test("in rubato the chord changes are found by harmony, and the beat is not guessed", () => {
    const figures = classFigures("rubato", 10, 30);
    expect(figures.changes).toBeGreaterThanOrEqual(0.88);
    expect(figures.methods.rubato).toBeGreaterThanOrEqual(9);
  });

  test("a solo alone with its tempo given is followed", () => {
    const figures = classFigures("solo alone", 10, 40);
    expect(figures.beats).toBeGreaterThanOrEqual(0.95);
  });
});
