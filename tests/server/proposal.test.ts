import { readFileSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { RunningServer } from "../../server/start.ts";
import { type Analysis, analysisSchema } from "../../src/account.ts";
import { ARPEGGIOS, FOUR_BARS, serve, smallMidi, takeForm } from "./harness.ts";

let server: RunningServer;
const post = (path: string, body: FormData) => fetch(`${server.url}/api${path}`, { method: "POST", body });
beforeAll(async () => {
  server = await serve();
});
afterAll(() => server.close());

describe("a chart that is proposed", () => {
  const solo = new Uint8Array(readFileSync("corpus/takes/jonas-quick-change.mid"));

  it("is answered with its bars, corrected by the user, and confirmed by sending it", async () => {
    const response = await post("/chart/proposal", takeForm({}, solo));
    expect(response.status).toBe(200);
    const { source, charts } = await response.json();
    expect(source).toBe("comping");
    expect(charts[0]).toMatchObject({ description: "12-bar blues with quick change in F", key: "F" });
    expect(charts[0].bars).toHaveLength(12);
    const corrected = charts[0].bars.map(({ chords }: { chords: string }) => chords);
    corrected[7] = "D7(b9)";
    const chart = `key: F\nidiom: blues\n| ${corrected.join(" | ")} |`;
    const taken = await post("/takes", takeForm({ chart }, solo));
    expect(taken.status).toBe(201);
    const { analysis } = (await taken.json()) as { analysis: Analysis };
    expect(analysis.chart.source).toBe("given");
    expect(analysis.chart.bars[7]!.chords[0]).toMatchObject({
      symbol: "D7(b9)",
      function: "secondary-dominant",
    });
  });

  it("hears by the tempo that the user knows", async () => {
    const options = JSON.stringify({ tempo: 120 });
    const response = await post("/chart/proposal", takeForm({ options }, solo));
    expect(response.status).toBe(200);
  });

  it("is refused with words where there is nothing to hear, and where the file is none", async () => {
    const alone = await post("/chart/proposal", takeForm({}, smallMidi(ARPEGGIOS)));
    expect(alone.status).toBe(422);
    expect(await alone.json()).toMatchObject({
      code: "chart-missing",
      todo: expect.stringContaining("Type"),
    });
    const letter = await post("/chart/proposal", takeForm({}, new TextEncoder().encode("Dear teacher")));
    expect(letter.status).toBe(422);
    expect((await post("/chart/proposal", new FormData())).status).toBe(400);
  });
});

describe("the user's word over the chart's", () => {
  const analysed = async (fields: Record<string, string>) => {
    const response = await post("/analyse", takeForm(fields, smallMidi(ARPEGGIOS)));
    expect(response.status).toBe(200);
    return analysisSchema.parse(await response.json()).chart;
  };
  const firstOf = (chart: Analysis["chart"], bar: number) => chart.bars[bar - 1]!.chords[0]!;

  it("counts for the idiom, by the chart or by an option", async () => {
    // In a blues the IV7 is at home and has Mixolydian; outside it has Lydian b7. [practice]
    expect(firstOf(await analysed({ chart: FOUR_BARS }), 2)).toMatchObject({
      function: "blues-four",
      scale: "Mixolydian",
    });
    const options = JSON.stringify({ idiom: "standard" });
    const standard = await analysed({ chart: FOUR_BARS, options });
    expect(standard.idiom).toBe("standard");
    expect(firstOf(standard, 2).scale).toBe("Lydian b7");
    const typed = await analysed({ chart: FOUR_BARS.replace("blues", "standard") });
    expect(typed.bars).toEqual(standard.bars);
  });

  it("counts for the key", async () => {
    const options = JSON.stringify({ key: "Bb" });
    const chart = await analysed({ chart: FOUR_BARS, options });
    expect(chart.key).toBe("Bb");
    // F7 is now the V.
    expect(firstOf(chart, 1)).toMatchObject({ function: "blues-five", numeral: "V7" });
  });

  it("counts for the scale of any chord", async () => {
    const options = JSON.stringify({ scales: [{ bar: 3, beat: 1, scale: "altered" }] });
    expect(firstOf(await analysed({ chart: FOUR_BARS, options }), 3).scale).toBe("altered");
    const typed = await analysed({ chart: FOUR_BARS.replace("C7", "C7{altered}") });
    expect(firstOf(typed, 3).scale).toBe("altered");
    expect(firstOf(typed, 1).scale).toBe("Mixolydian");
  });
});

describe("a typed chart that is read before anything is analysed", () => {
  const read = (body: unknown) =>
    fetch(`${server.url}/api/chart`, {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify(body),
    });

  it("is answered with its bars in the order of playing, its meter and key, and printed in the house style", async () => {
    const answer = await read({ chart: "Small Waltz\nkey: G\n3/4\n|: G | D7 |1 Am7 :|2 C:2 D7:1 |" });
    expect(answer.status).toBe(200);
    const chart = await answer.json();
    expect(chart).toEqual({
      text: expect.stringContaining("| G | D7 | Am7 | G |"),
      key: "G",
      bars: 6,
      name: "Small Waltz",
      meter: { beats: 3, unit: 4 },
      played: ["G", "D7", "Am7", "G", "D7", "C:2 D7:1"].map((chords, at) => ({
        bar: at + 1,
        chords,
        key: "G",
      })),
      warnings: [],
    });
    // What was printed is what it reads.
    expect(await (await read({ chart: chart.text })).json()).toEqual(chart);
  });

  it("says what was understood rather than read, and where", async () => {
    const { warnings } = await (await read({ chart: "F7 Bb7 F7 F7\nBb7 Bb7 F7 F7\nC7 Bb7 F7 C7" })).json();
    expect(warnings).toEqual([
      { code: "bars-understood", message: expect.stringContaining("bar of its own"), where: "line 1" },
    ]);
  });

  it("is refused with its line, its bar and the mend", async () => {
    const answer = await read({ chart: "| F7 | Dm7-G7 |" });
    expect(answer.status).toBe(422);
    expect(await answer.json()).toMatchObject({
      code: "not-a-chord",
      where: "line 1, bar 2",
      todo: expect.stringContaining("Dm7 G7"),
    });
  });
});
