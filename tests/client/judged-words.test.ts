/** How a finding was judged, in words. */
import { describe, expect, it } from "vitest";
import { amount, asWell, heldBackWords, judgedWords } from "../../client/findings/judged-words.ts";

const finding = { id: "one-rule" } as const;

describe("how a finding is judged", () => {
  it("counts the draws that do as well from p = (1 + as) / (1 + draws)", () => {
    // Davison & Hinkley 1997, Bootstrap Methods, section 4.2 [memory].
    for (const draws of [19, 39, 99])
      for (const as of [0, 1, 4]) expect(asWell((1 + as) / (1 + draws), draws)).toBe(as);
  });

  it("says what was measured, which chance, how many draws and how often chance did as well", () => {
    const chance = {
      null: "pitches shuffled",
      median: 0.2,
      low: 0.1,
      high: 0.3333333,
      draws: 99,
      p: 0.03,
      q: 0.05,
    } as const;
    const measure = "share of phrases that end open";
    expect(judgedWords({ ...finding, measure, unit: "share", observed: 0.45678, chance })).toEqual([
      "Counted: share of phrases that end open.",
      "In the take: 46 %.",
      "Chance here is the same pitches in another order, drawn 99 times.",
      "Chance gives 20 % in the middle, and 10 to 33 % in 95 of 100 draws.",
      "Chance did as well in 2 of 99 draws.",
    ]);
    const silent = { ...chance, median: null, low: null, high: null };
    expect(judgedWords({ ...finding, chance: silent })).toHaveLength(2);
  });

  it("says of facts, ideas and goals that they are not tested here", () => {
    expect(judgedWords(finding)).toEqual(["A fact of the take: it is not tested against chance."]);
    expect(judgedWords({ id: "x", basis: "idea" })[0]).toContain("when it was found");
    expect(judgedWords({ id: "goal-1" })[0]).toContain("goal");
  });

  it("gives every number its unit", () => {
    expect(amount(1, "times")).toBe("1 time");
    expect(amount(3.54321, "for each hundred notes")).toBe("3.54 for each hundred notes");
    expect(amount(4.2, "percent a minute")).toBe("4.2 % a minute");
    expect(amount(1, "beats")).toBe("1 beat");
    expect(amount(1.5, "ratio")).toBe("1.5");
  });
});

describe("what is held back", () => {
  it("is counted by its reason, without names of rules", () => {
    expect(heldBackWords([])).toBeNull();
    const words = heldBackWords([
      { rule: "a-rule", why: "chance" },
      { rule: "b-rule", why: "chart" },
      { rule: "c-rule", why: "chance" },
    ])!;
    expect(words.summary).toBe("Held back: three findings");
    expect(words.reasons).toHaveLength(2);
    expect(words.reasons[0]).toMatch(/^Two because chance/);
    expect([words.summary, ...words.reasons].join(" ")).not.toContain("rule");
  });
});
