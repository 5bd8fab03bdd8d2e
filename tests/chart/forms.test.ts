import { describe, expect, it } from "vitest";
import { chartText, chordSpans, chorusBeats, FORMS, formChart, parseChart } from "../../src/chart/index.ts";

const symbols = (form: string, key: string) =>
  formChart(form, key).bars.map((bar) => bar.chords.map((chord) => chord.symbol).join(" "));

describe("the trade's forms", () => {
  // [practice]: the 12-bar blues as every method book prints it.
  it("the basic 12-bar blues in F", () => {
    expect(symbols("blues-basic", "F")).toEqual([
      ...["F7", "F7", "F7", "F7"],
      ...["Bb7", "Bb7", "F7", "F7"],
      ...["C7", "Bb7", "F7", "F7"],
    ]);
  });

  it("has the length that it says, in every key of its mode", () => {
    const tonics = ["C", "Db", "D", "Eb", "E", "F", "Gb", "F#", "G", "Ab", "A", "Bb", "B"];
    for (const form of FORMS) {
      for (const tonic of tonics) {
        const chart = formChart(form.id, tonic);
        expect(chart.bars, `${form.id} in ${tonic}`).toHaveLength(form.bars);
        expect(chart.key.mode).toBe(form.mode);
        expect(chorusBeats(chart)).toBe(form.bars * 4);
        expect(parseChart(chartText(chart))).toEqual(chart);
        expect(chordSpans(chart).map(({ function: name }) => name)).not.toContain("none");
      }
    }
  });
});
