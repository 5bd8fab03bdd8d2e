import { describe, expect, it } from "vitest";
import { registerOf, restShare } from "../../src/compare/index.ts";
import { accountOf, eighths } from "../findings/account-builder.ts";

describe("register", () => {
  it("counts every key that was struck, and has no quantiles without notes", () => {
    expect(registerOf([])).toEqual({ low: null, high: null, quantiles: [], histogram: [] });
    const register = registerOf([62, 60, 62, 67]);
    expect(register).toMatchObject({ low: 60, high: 67 });
    expect(register.histogram).toEqual([
      { pitch: 60, notes: 1 },
      { pitch: 62, notes: 2 },
      { pitch: 67, notes: 1 },
    ]);
    expect(register.quantiles[2]).toBe(62);
  });
});

describe("rests", () => {
  it("are the share of time in which no key is held", () => {
    const notes = [
      { onset: 0, duration: 1 },
      { onset: 2, duration: 1 },
    ];
    expect(restShare(notes, { start: 0, end: 4 })).toBe(0.5);
  });

  it("do not count the gaps of detached touch", () => {
    const notes = Array.from({ length: 8 }, (_, i) => ({ onset: i / 4, duration: 0.15 }));
    expect(restShare(notes, { start: 0, end: 1.9 })).toBe(0);
  });
});

describe("chorus summaries", () => {
  const account = accountOf({
    choruses: 2,
    notes: [
      ...eighths(0, [60, 62, 64, 65, 67, 69], { role: "third" }),
      ...eighths(48, [72, 71, 72], { role: "root" }),
    ],
  });

  it("stand for each chorus, with densities a bar of the chart", () => {
    expect(account.choruses.map((one) => one.notes)).toEqual([6, 3]);
    expect(account.choruses[0]!.density.perBar).toBeCloseTo(0.5);
    expect(account.choruses[0]!.roles).toEqual({ third: 1 });
  });

  it("know which notes run", () => {
    expect(account.choruses[0]!.runShare).toBe(1);
    expect(account.choruses[1]!.runShare).toBe(0);
  });
});
