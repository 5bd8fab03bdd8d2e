/** One verdict on change: what is said of a row of takes, and how sure it is. */
import { describe, expect, it } from "vitest";
import { type Change, changeInWords, changeOfValues, changesOf, sampleOf } from "../../src/compare/index.ts";
import { accountOf, eighths } from "../findings/account-builder.ts";

/** Eight phrases of four eighths, each followed by so much rest that it makes up about this share. */
const resting = (share: number) => {
  const every = 2 / (1 - share);
  // A phrase is played a little longer or shorter in turn, as nobody breathes by the clock.
  const notes = Array.from({ length: 8 }, (_, k) =>
    eighths(k * every + (k % 2) * 0.1, [60, 64, 67, 65]),
  ).flat();
  return sampleOf(accountOf({ notes, choruses: 3, breath: 0.1 }));
};
const told = {
  name: "Share of rest",
  hope: "up",
  ends: ["15 %", "43 %"],
  sides: ["One", "Two", "Three", "Four"],
} as const;

describe("a row of takes", () => {
  // Said of a player's rests, 15, 41, 46 and 43 of a hundred: a leap, and then a plateau.
  const rests = changesOf([0.15, 0.41, 0.46, 0.43].map(resting)).get("rests")!;

  it("is judged by its first and last, and step by step", () => {
    expect(rests.verdict).toBe("clearly more");
    expect(rests.steps[0]).toBe("clearly more");
    expect(changeInWords(rests, told)).toEqual({
      short: "clearly more, as hoped",
      sentence: expect.stringMatching(
        /^Share of rest: clearly more, as hoped \(15 % to 43 %\), most of all with “Two”/,
      ),
    });
  });

  it("turned around says the opposite", () => {
    const back = changesOf([0.43, 0.46, 0.41, 0.15].map(resting)).get("rests")!;
    expect(back.verdict).toBe("clearly less");
    expect(changeInWords(back, told).short).toBe("clearly less");
  });

  it("that stays where it is has no clear change", () => {
    const same = changesOf([0.41, 0.41, 0.41].map(resting)).get("rests")!;
    expect(changeInWords(same, told).short).toBe("no clear change");
  });

  it("of one take has none", () => {
    expect(changesOf([resting(0.3)]).size).toBe(0);
  });
});

describe("doubt in words", () => {
  const change = (verdict: Change["verdict"]): Change => ({
    ...{ verdict, steps: [], trend: null, delta: null, p: null, q: null },
  });
  it.each([
    ["clearly more", "clearly more, as hoped", ""],
    ["perhaps less", "perhaps less", "; more takes would tell"],
    ["no clear difference", "no clear change", ""],
    ["too little to say", "too little to say", ""],
  ] as const)("%s", (verdict, short, doubt) => {
    expect(changeInWords(change(verdict), told)).toEqual({
      short,
      sentence: `Share of rest: ${short} (15 % to 43 %)${doubt}.`,
    });
  });

  it("says earlier and later where more and less would say nothing", () => {
    const timing = { ...told, name: "Early or late", ways: ["later", "earlier"] } as const;
    expect(changeInWords(change("clearly less"), { ...timing, hope: null }).short).toBe("clearly earlier");
    expect(changeInWords(change("perhaps more"), { ...timing, hope: null }).short).toBe("perhaps later");
  });

  // Values in any order are as likely: of three, all rise or all fall in 2 of 6 orders; of five, in 2 of 120. [memory]
  it("of numbers that only whole takes have is by their order alone", () => {
    const words = (values: number[]) => changeInWords(changeOfValues(values), { ...told, hope: null }).short;
    expect(words([1, 2])).toBe("too little to say");
    expect(words([1, 2, 3])).toBe("perhaps more");
    expect(words([5, 4, 3, 2, 1])).toBe("clearly less");
    expect(words([1, 3, 2, 1])).toBe("no clear change");
  });

  it("names no statistic", () => {
    for (const verdict of [
      "clearly more",
      "perhaps more",
      "no clear difference",
      "too little to say",
    ] as const) {
      expect(changeInWords(change(verdict), told).sentence).not.toMatch(/delta|tau|Kendall|\bq\b|\bp\b/);
    }
  });
});
