import { describe, expect, it } from "vitest";
import { loopedChart, loopText, loopWithin, loopWords, pressBar } from "../../client/record/bar-loop.ts";
import { parseChart } from "../../src/chart/index.ts";

/** A twelve-bar blues of the trade: bars 9 to 12 are its turn home, V IV I V. [practice] */
const BLUES = parseChart(
  "name: Twelve\nkey: F\nidiom: blues\n| F7 | Bb7 | F7 | F7 | Bb7 | Bb7 | F7 | F7 | C7 | Bb7 | F7 | C7:3 Gb7:1 |",
);

describe("a loop of bars", () => {
  it("is chosen by its two ends, from whichever side, and is let go of again", () => {
    expect(pressBar(null, 5)).toEqual({ from: 5, to: 5 });
    expect(pressBar({ from: 5, to: 5 }, 8)).toEqual({ from: 5, to: 8 });
    expect(pressBar({ from: 8, to: 8 }, 5)).toEqual({ from: 5, to: 8 });
    expect(pressBar({ from: 5, to: 5 }, 5)).toBeNull();
    expect(pressBar({ from: 5, to: 8 }, 2)).toEqual({ from: 2, to: 2 });
  });

  it("is no loop where it is the whole form, and keeps to the chart when that becomes another one", () => {
    expect(loopWithin({ from: 1, to: 12 }, 12)).toBeNull();
    expect(loopWithin({ from: 9, to: 12 }, 10)).toEqual({ from: 9, to: 10 });
    expect(loopWithin({ from: 9, to: 12 }, 8)).toBeNull();
  });

  it("is a chart of its own with the chords, beats and key of its bars", () => {
    const turn = loopedChart(BLUES, { from: 9, to: 12 });
    expect(turn.bars.map(({ number }) => number)).toEqual([1, 2, 3, 4]);
    expect(turn.bars.flatMap(({ chords }) => chords.map(({ symbol, beats }) => [symbol, beats]))).toEqual([
      ["C7", 4],
      ["Bb7", 4],
      ["F7", 4],
      ["C7", 3],
      ["Gb7", 1],
    ]);
    expect(loopedChart(BLUES, null)).toBe(BLUES);
  });

  it("is sent as text that reads as the same bars; the whole form needs none", () => {
    const text = loopText(BLUES, { from: 9, to: 12 })!;
    const read = parseChart(text);
    expect(read).toMatchObject({ name: "Twelve, bars 9 to 12", idiom: "blues", key: { tonic: "F" } });
    expect(read.bars.map(({ chords }) => chords.map(({ symbol }) => symbol))).toEqual([
      ["C7"],
      ["Bb7"],
      ["F7"],
      ["C7", "Gb7"],
    ]);
    expect(loopText(BLUES, null)).toBeNull();
    expect(loopText(BLUES, { from: 1, to: 12 })).toBeNull();
  });

  it("stands in the key of its own first bar, where the chart has changed key", () => {
    const two = parseChart("key: C\n| Cmaj7 | G7 |\nkey: Eb\n| Ebmaj7 | Bb7 |");
    const bridge = parseChart(loopText(two, { from: 3, to: 4 })!);
    expect(bridge.key).toMatchObject({ tonic: "Eb", mode: "major" });
    expect(bridge.bars.every(({ key }) => key === null)).toBe(true);
    const across = parseChart(loopText(two, { from: 2, to: 3 })!);
    expect(across.key.tonic).toBe("C");
    expect(across.bars[1]!.key?.tonic).toBe("Eb");
  });

  it("is told in words", () => {
    expect(loopWords(null)).toMatch(/^The whole form/);
    expect(loopWords({ from: 5, to: 5 })).toMatch(/^Bar 5 goes round\. Press another bar/);
    expect(loopWords({ from: 5, to: 8 })).toBe("Bars 5 to 8 go round.");
  });
});
