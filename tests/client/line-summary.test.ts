/** How the line goes, in words; what is expected follows from the numbers that each test makes. */
import { describe, expect, it } from "vitest";
import { phrasesInWords, timing } from "../../client/take/line-summary.ts";

describe("the phrases", () => {
  it("are told as one where there is one", () => {
    expect(phrasesInWords([23], new Map([["rising", 1]]), new Map([["on the first beat", 1]]))).toBe(
      "One, of 23 bars, rising; it starts on the first beat.",
    );
  });

  it("are told by their middle, their longest, and by number", () => {
    const shapes = new Map([
      ["level", 1],
      ["falling", 2],
    ]);
    const starts = new Map([["between the beats", 3]]);
    expect(phrasesInWords([1, 2, 4.5], shapes, starts)).toBe(
      "Half of them last 2 bars or less, the longest 4.5 bars. Shapes: 2 falling, 1 level. By where they start: 3 between the beats.",
    );
    expect(phrasesInWords([], new Map(), new Map())).toBe("");
  });
});

describe("early and late", () => {
  const told = (q1: number, median: number, q3: number, low: number, high: number) =>
    timing({
      timing: {
        ...{ against: "grid", notes: 40, threshold: 10, heard: true, drift: null },
        ...{ q1, median, q3, interval: { low, high } },
      },
    });

  it("names the side of the beat, and leaves no minus to be read", () => {
    expect(told(-29, -23, -18, -24, -21)).toBe(
      "Half of the notes are 23 ms or more early against the click (between 24 and 21 ms early, 95 % sure); the middle half from 29 to 18 ms early.",
    );
    expect(told(-4, 11, 20, 0, 15)).toBe(
      "Half of the notes are 11 ms or more late against the click (between 0 and 15 ms late, 95 % sure); the middle half from 4 ms early to 20 ms late.",
    );
  });
});
