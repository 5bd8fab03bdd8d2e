/** Charts as people type and paste them: read as they are meant, asked about, or refused with the mend that fits. */
import { describe, expect, it } from "vitest";
import { barText, keyName, parseChart, readChart } from "../../src/chart/index.ts";
import { Problem } from "../../src/take/index.ts";
import { HANDED_IN_CHARTS, LATER_CHARTS, NOT_TO_BE_SWALLOWED } from "./handed-in-charts.ts";
import { PASTED_CHARTS } from "./pasted-charts.ts";
import { TYPED_CHARTS } from "./typed-charts.ts";

const CHARTS = [
  ...TYPED_CHARTS,
  ...PASTED_CHARTS,
  ...HANDED_IN_CHARTS,
  ...LATER_CHARTS,
  ...NOT_TO_BE_SWALLOWED,
];

const problemOf = (text: string): Problem | null => {
  try {
    readChart(text);
    return null;
  } catch (error) {
    if (error instanceof Problem) return error;
    throw error;
  }
};

describe("charts as people type them", () => {
  it("are at least four hundred and fifty", () => {
    expect(new Set(CHARTS.map(({ text }) => text)).size).toBeGreaterThanOrEqual(450);
  });

  it.each(CHARTS.filter(({ bars }) => bars !== undefined))("$text", (typed) => {
    const { chart, warnings } = readChart(typed.text);
    expect(chart.bars.map((bar) => barText(bar, chart.meter)).join(" | ")).toBe(typed.bars);
    // What could mean something else is asked about, and nothing else is.
    expect(warnings.map(({ code }) => code)).toEqual(typed.asks === undefined ? [] : [typed.asks]);
    for (const { where } of warnings) expect(where).toMatch(/^line \d/);
    if (typed.meter !== undefined) expect(`${chart.meter.beats}/${chart.meter.unit}`).toBe(typed.meter);
    if (typed.key !== undefined) expect(keyName(chart.key)).toBe(typed.key);
    if (typed.name !== undefined) expect(chart.name).toBe(typed.name);
  });

  it.each(CHARTS.filter(({ bars }) => bars === undefined))("$text is refused", (typed) => {
    const problem = problemOf(typed.text);
    expect(problem?.code).toBe(typed.refused);
    expect(problem?.todo).toMatch(typed.mend!);
    if (typed.refused !== "empty-chart") expect(problem?.where).toMatch(/^line \d/);
  });

  it("asks for each kind once, with its first place and how often it was", () => {
    const { warnings } = readChart("| C | | F | | G |");
    expect(warnings).toEqual([
      { code: "empty-bar", message: expect.stringContaining("(2 places)"), where: "line 1, bar 2" },
    ]);
  });

  it("reads nothing twice over: a name of notes holds for the whole chart", () => {
    expect(parseChart("names: solfege\n| Do7 | Fa7 |").bars[0]!.chords[0]!.symbol).toBe("C7");
    expect(problemOf("names: solfege\n| C7 | F7 |")?.code).toBe("not-a-chord");
  });
});
