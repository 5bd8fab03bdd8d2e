/** Choosing a chart, without a page. Keys are named by their usual signatures: D flat major, but C sharp minor. [practice] */
import { describe, expect, it } from "vitest";
import * as chart from "../../client/parts/chart-choice.ts";
import type { FormRow } from "../../server/contract/charts.ts";

const FORMS: readonly FormRow[] = [
  { id: "blues", name: "12-bar blues", bars: 12, mode: "major" },
  { id: "minor-blues", name: "minor blues", bars: 12, mode: "minor" },
];
const first = chart.firstChoice(FORMS, {});
const asked = (choice: chart.ChartChoice, heard: string | null = null) =>
  chart.chartRequest(choice, FORMS, heard);

describe("a chart that is chosen", () => {
  it("begins with the first form, in F", () => {
    expect(asked(first)).toEqual({ form: "blues", key: "F" });
  });

  it("begins as an address says; an unknown form or key is passed over", () => {
    expect(asked(chart.firstChoice(FORMS, { form: "minor-blues", key: "Gm" }))).toEqual({
      form: "minor-blues",
      key: "Gm",
    });
    expect(asked(chart.firstChoice(FORMS, { form: "waltz", key: "H" }))).toEqual({ form: "blues", key: "F" });
    expect(asked(chart.firstChoice(FORMS, { text: "| C |", form: "blues" }))).toEqual({ chart: "| C |" });
  });

  it("keeps its tonic when the form changes its mode, by the name that is usual there", () => {
    const inD = chart.chooseKey(first, "Db");
    expect(asked(inD)).toEqual({ form: "blues", key: "Db" });
    const minor = chart.chooseForm(inD, "minor-blues");
    expect(asked(minor)).toEqual({ form: "minor-blues", key: "C#m" });
    expect(asked(chart.chooseForm(minor, "blues"))).toEqual({ form: "blues", key: "Db" });
  });

  it("offers each of the twelve keys once, in the mode of the form", () => {
    const major = chart.keysOf(first, FORMS);
    const minor = chart.keysOf(chart.chooseForm(first, "minor-blues"), FORMS);
    expect([new Set(major).size, new Set(minor).size]).toEqual([12, 12]);
    expect(major).toContain("Db");
    expect(minor).toContain("C#m");
    expect(["Bb", "C#m"].map(chart.keyWords)).toEqual(["B♭ major", "C♯ minor"]);
  });

  it("can be gone on with as text from what was heard, but what is typed is not written over", () => {
    const gone = chart.chooseWay(chart.chooseWay(first, "own", null), "text", "| F7 |");
    expect(asked(gone)).toEqual({ chart: "| F7 |" });
    const typed = chart.typeChart(gone, "| Gm7 |");
    expect(asked(chart.chooseWay(typed, "text", "| F7 |"))).toEqual({ chart: "| Gm7 |" });
  });

  it("is what was heard of the take, or nothing while nothing was", () => {
    const own = chart.chooseWay(first, "own", null);
    expect(asked(own)).toEqual({});
    expect(asked(own, "| F7 |")).toEqual({ chart: "| F7 |" });
  });

  it("is offered until somebody chooses: then the choice stands", () => {
    expect(asked(chart.offerText(first, "| C |"))).toEqual({ chart: "| C |" });
    expect(asked(chart.offerText(chart.touch(first), "| C |"))).toEqual({ form: "blues", key: "F" });
  });
});
