import { describe, expect, it } from "vitest";
import { verdictOf } from "../../src/compare/verdict.ts";

const sure = { difference: 1, p: 0.001, q: 0.001, least: 0.0001 };

// Romano, Kromrey, Coraggio & Skowronek 2006: |delta| below .147 negligible, below .33 small, below .474 medium. [lit]
describe("a difference that is sure", () => {
  it.each([
    [0.1, "perhaps more"],
    [0.2, "perhaps more"],
    [0.32, "perhaps more"],
    [0.34, "clearly more"],
    [0.6, "clearly more"],
  ] as const)("with an effect of %s is %s", (delta, verdict) => {
    expect(verdictOf({ ...sure, delta })).toBe(verdict);
    const less = verdict.replace("more", "less");
    expect(verdictOf({ ...sure, difference: -1, delta: -delta })).toBe(less);
  });

  // The usual five in a hundred, before and after correcting for the number of comparisons (Benjamini & Hochberg 1995).
  it("is only perhaps so where the correction for many comparisons takes it away", () => {
    expect(verdictOf({ ...sure, q: 0.051, delta: 0.6 })).toBe("perhaps more");
    expect(verdictOf({ ...sure, p: 0.051, q: 0.2, delta: 0.6 })).toBe("no clear difference");
  });

  it("is not to be had from too few phrases", () => {
    expect(verdictOf({ ...sure, delta: 0.6, least: 0.1 })).toBe("too little to say");
    expect(verdictOf(null)).toBe("too little to say");
  });
});
