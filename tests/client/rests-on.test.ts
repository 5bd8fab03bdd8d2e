/** What the words on a note rest on: its bar's place, and the chart. */
import { describe, expect, it } from "vitest";
import { sureOfBar } from "../../src/account/asked-place.ts";
import { restsOn } from "../../src/account/rests-on.ts";
import { sampleAccount } from "./sample-account.ts";

const base = sampleAccount();
const bar = (chorus: number, number: number, confidence: number) => ({
  chorus,
  bar: number,
  start: 0,
  end: 1,
  confidence,
});
const account = {
  ...base,
  alignment: {
    ...base.alignment,
    confidence: 0.8,
    chartFit: null,
    bars: [bar(1, 1, 0.4), bar(1, 2, 0.95), bar(2, 1, 0.97)],
  },
};

describe("what an account of a note rests on", () => {
  it("is the place of its own bar; of a pickup and of what runs on, that of the nearest bar of the chorus", () => {
    expect(sureOfBar(account, 1, 2)).toBe(0.95);
    expect(sureOfBar(account, 1, -3)).toBe(0.4);
    expect(sureOfBar(account, 1, 5)).toBe(0.95);
    expect(sureOfBar(account, 7, 1)).toBeNull();
  });

  it("is said of a bar that is not sure, and of no other", () => {
    expect(restsOn(account, { chorus: 1, bar: 1 })).toBe("If the bar lies here (40 % sure)");
    expect(restsOn(account, { chorus: 1, bar: 0 })).toBe("If the bar lies here (40 % sure)");
    expect(restsOn(account, { chorus: 2, bar: 1 })).toBeNull();
    expect(restsOn(account)).toBe("If the bar lines lie so (80 % sure)");
  });

  it("is the chart too, until it is confirmed", () => {
    const chartFit = { verdict: "doubtful" as const, score: 0.4, better: [] };
    const doubted = { ...account, alignment: { ...account.alignment, chartFit } };
    expect(restsOn(doubted, { chorus: 2, bar: 1 })).toBe("If this is the chart");
    expect(restsOn(doubted, { chorus: 1, bar: 1 })).toBe(
      "If this is the chart and the bar lies here (40 % sure)",
    );
    const options = { ...doubted.options, chartConfirmed: true };
    expect(restsOn({ ...doubted, options }, { chorus: 2, bar: 1 })).toBeNull();
  });
});
