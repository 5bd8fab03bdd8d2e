import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { analyse } from "../../src/analyse.ts";
import { chartText, formChart, keyName, parseChart } from "../../src/chart/index.ts";
import { proposeFor } from "../../src/propose.ts";
import { settleChart } from "../../src/settle-chart.ts";
import type { Take } from "../../src/take/index.ts";
import { writeMidi } from "../export/write-midi.ts";
import { emptyTake } from "../take/empty-take.ts";
import { compingTake, noteAt } from "./comping-take.ts";

const none = { key: null, idiom: null, tempo: null };
/** All of a take is the comping hand's. */
const settle = (text: string | null, take: Take, options: Parameters<typeof settleChart>[3] = none) =>
  settleChart(
    text,
    take,
    take.notes.map(() => ({ hand: "left" as const, solo: false, margin: 1 })),
    options,
  );
const even = { choruses: 2, jitter: 0, early: 0, voicing: "shell", seed: 7 } as const;

describe("the chart that a take is heard against", () => {
  const blues = compingTake(formChart("blues-basic", "F"), { ...even, tempo: 120 });

  it("is the caller's, whatever the source says", () => {
    const printed = { ...blues, chords: [{ tick: 0, text: "Am7" }] };
    const { chart, source, warnings } = settle("key: G\n| G7 | C7 |", printed);
    expect([source, chartText(chart), warnings]).toEqual([
      "given",
      chartText(parseChart("key: G\n| G7 | C7 |")),
      [],
    ]);
  });

  it("is that of the symbols in the source when none is given, or an empty one", () => {
    const printed = { ...blues, chords: [{ tick: 0, text: "Am7" }] };
    for (const text of [null, "", " \n"]) {
      const { chart, source, warnings } = settle(text, printed);
      expect(source).toBe("source text");
      expect(chart.bars[0]!.chords[0]!.symbol).toBe("Am7");
      expect(warnings).toMatchObject([{ code: "chart-from-source" }]);
    }
    expect(settle(null, { ...printed, format: "musicxml" }).source).toBe("source harmony");
  });

  it("is proposed from the comping otherwise, and the user is told to check it", () => {
    const { chart, source, warnings } = settle(null, blues);
    expect([source, chart.name, keyName(chart.key), chart.idiom]).toEqual([
      "proposed",
      "12-bar blues",
      "F",
      "blues",
    ]);
    expect(warnings).toMatchObject([
      { code: "chart-proposed", message: expect.stringContaining("12-bar blues in F") },
    ]);
  });

  it("is refused, with what to do, when the comping does not say", () => {
    const note = noteAt(1, 60, 0, 1, 120);
    expect(() => settle(null, emptyTake({ notes: [note] }))).toThrow(/There is no chart/);
    expect(() => settle(null, emptyTake())).toThrow(/There is no chart/);
  });

  it("is read at the tempo that the user knows, where the source states none", () => {
    // A progression that is none of the forms: without bar lines it is not clear, with a tempo it is.
    const chart = parseChart("key: G\n| Gmaj7 | Em7 | Am7 | D7 | Bm7 E7 | Am7 | Cm6 | Gmaj7 |");
    const played = compingTake(chart, { ...even, tempo: 84 });
    const unstated: Take = {
      ...played,
      tempoStated: false,
      tempos: [{ tick: 0, seconds: 0, quartersPerMinute: 120 }],
    };
    expect(() => settle(null, unstated)).toThrow(/There is no chart/);
    const found = settle(null, unstated, { ...none, tempo: 84 });
    expect(found.source).toBe("proposed");
    expect(found.chart.bars).toEqual(
      chart.bars.map((bar) => expect.objectContaining({ number: bar.number })),
    );
    expect(chartText(found.chart).split("\n").slice(-3)).toEqual(chartText(chart).split("\n").slice(-3));
  });

  it("has the key and the idiom that the user says, over those of any source", () => {
    const texts = ["key: F\nidiom: blues\n| F7 | Bb7 |", null];
    for (const text of texts) {
      const { chart } = settle(text, blues, { ...none, key: "Bb", idiom: "standard" });
      expect([keyName(chart.key), chart.idiom]).toEqual(["Bb", "standard"]);
    }
    expect(settle(texts[0]!, blues, { ...none, idiom: "standard" }).chart).toMatchObject({
      key: { tonic: "F" },
      idiom: "standard",
    });
  });
});

describe("the charts that are proposed to the player", () => {
  const bytes = (file: string) => new Uint8Array(readFileSync(`corpus/takes/${file}`));

  it("come with the chords and the confidence of each bar, and can be confirmed as they are", () => {
    const take = bytes("jonas-quick-change.mid");
    const { source, charts } = proposeFor(take, {});
    expect(source).toBe("comping");
    const [first] = charts;
    expect(first).toMatchObject({
      description: "12-bar blues with quick change in F",
      key: "F",
      idiom: "blues",
    });
    expect(first!.bars.map(({ bar }) => bar)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12]);
    expect(first!.bars[1]).toMatchObject({ chords: "Bb7" });
    for (const { confidence } of first!.bars) expect(confidence > 0 && confidence <= 1).toBe(true);
    expect(charts.length).toBeGreaterThan(1);
    const analysis = analyse(take, first!.text);
    expect(analysis.chart).toMatchObject({ source: "given", key: "F", idiom: "blues" });
    // Bars that are written out again give the same chart.
    const rewritten = `key: F\nidiom: blues\n| ${first!.bars.map(({ chords }) => chords).join(" | ")} |`;
    expect(parseChart(rewritten).bars).toEqual(parseChart(first!.text).bars);
  });

  it("are the one that the source prints, where it does", () => {
    const score = bytes("bram-lantern-yard.musicxml");
    const { source, charts } = proposeFor(score, {});
    expect(source).toBe("source harmony");
    expect(charts).toHaveLength(1);
    expect(charts[0]!.confidence).toBe(1);
    expect(charts[0]!.description).toMatch(/^\d+ bars in /);
    expect(charts[0]!.text).toBe(analyse(score, null).chart.text);
  });

  it("are named however unsure they are, and refused when nothing accompanies the solo", () => {
    const { charts } = proposeFor(bytes("maren-rubato.mid"), {});
    expect(charts[0]!.confidence).toBeLessThan(0.5);
    const melody = Array.from({ length: 8 }, (_, i) => noteAt(i + 1, 72 + i, i / 2, 0.4, 120));
    const alone = writeMidi(emptyTake({ notes: melody }));
    expect(() => proposeFor(alone, {})).toThrow(/There is no chart/);
  });
});
