/** An upbeat written out with rests to a full bar is a pickup, not bar 1 [practice]. */
import { describe, expect, it } from "vitest";
import { analyse } from "../../src/analyse.ts";
import { readTake } from "../../src/ingest/index.ts";
import { attributes, bar, note, rest, score } from "./score-text.ts";

const symbol = (step: string) =>
  `<harmony><root><root-step>${step}</root-step></root><kind>dominant</kind></harmony>`;
const LINE = [note("C5", 1), note("D5", 1), note("E5", 1), note("G5", 1)].join("");
const UPBEAT = rest(3) + note("G4", 1);
const BARS = ["C", "F", "C", "G"].map((step, index) => bar(index + 2, symbol(step) + LINE));

describe("a first bar of rests and an upbeat", () => {
  it("is a pickup when the first chord stands on the next bar line", () => {
    const take = readTake(score(bar(1, attributes(1) + UPBEAT), ...BARS), { name: "x" });
    expect(take.bars.map(({ implicit }) => implicit)).toEqual([true, false, false, false, false]);
    expect(take.warnings.map(({ code }) => code)).toEqual(["pickup-assumed"]);
  });

  it("leads into bar 1 of the chart", () => {
    const account = analyse(score(bar(1, attributes(1) + UPBEAT), ...BARS), null, { name: "x" });
    expect(account.chart.bars.map(({ chords }) => chords[0]!.symbol)).toEqual(["C7", "F7", "C7", "G7"]);
    expect(account.notes.slice(0, 2).map(({ bar: number, beat }) => [number, beat])).toEqual([
      [0, 4],
      [1, 1],
    ]);
  });

  it("is bar 1 when it has a chord of its own, or begins with a note", () => {
    const own = readTake(score(bar(1, attributes(1) + symbol("C") + UPBEAT), ...BARS), { name: "x" });
    const full = readTake(score(bar(1, attributes(1) + LINE), ...BARS), { name: "x" });
    for (const take of [own, full]) expect(take.bars[0]!.implicit).toBe(false);
  });

  it("is a pickup when it is numbered 0", () => {
    const take = readTake(score(bar(0, attributes(1) + LINE), bar(1, symbol("C") + LINE)), { name: "x" });
    expect(take.bars.map(({ implicit }) => implicit)).toEqual([true, false]);
  });
});
