import { describe, expect, it } from "vitest";
import { describeTime } from "../../src/rhythm/index.ts";
import { chartOf, played, steady } from "./played.ts";

/** So many quarter notes on the beat, all 30 ms behind it at 120 a minute. */
const late = (notes: number) =>
  played(Array.from({ length: notes }, (_, i) => ({ pitch: 60 + (i % 5), at: i, beats: 0.9, timing: 0.06 })));

describe("early and late playing", () => {
  // Sign test: with seven notes all on one side of the beat by chance 1.6 %, with eight 0.8 %: below one in a hundred.
  it("is told from as many notes as could not all lie late by chance, one time in a hundred", () => {
    const fewest = Math.ceil(1 + Math.log2(100));
    expect(fewest).toBe(8);
    expect(describeTime(late(fewest - 1), [], chartOf(), steady(), "midi")).toMatchObject({
      timing: null,
      untimed: "too few notes",
    });
    expect(describeTime(late(fewest), [], chartOf(), steady(), "midi").timing).toMatchObject({
      median: 30,
      notes: 8,
    });
  });
});
