/** How a finding was judged, in words. */
import { describe, expect, it } from "vitest";
import { asWell, heldBackWords, judgedWords } from "../../client/findings/judged-words.ts";

const finding = { id: "wide-range", heading: "range" } as const;

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
    expect(judgedWords({ ...finding, observed: 0.45678, chance })).toEqual([
      "Measured in the take: 0.457.",
      "Chance here is the same pitches in another order, drawn 99 times.",
      "Chance gives 0.2 in the middle, and 0.1 to 0.333 in 95 of 100 draws.",
      "Chance did as well in 2 of 99 draws.",
    ]);
    const silent = { ...chance, median: null, low: null, high: null };
    expect(judgedWords({ ...finding, chance: silent })).toHaveLength(2);
  });

  it("says of facts, ideas and goals that they are not tested here", () => {
    expect(judgedWords(finding)).toEqual(["A fact of the take: it is not tested against chance."]);
    expect(judgedWords({ id: "x", heading: "melodic and motivic development" })[0]).toContain("an idea");
    expect(judgedWords({ id: "goal-1", heading: "range" })[0]).toContain("goal");
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
    expect(words.reasons[0]).toMatch(/^2 because chance/);
    expect([words.summary, ...words.reasons].join(" ")).not.toContain("rule");
  });
});
