/** What is asked before a take is read, without a page. */
import { describe, expect, it } from "vitest";
import { confirming, takeQuestion } from "../../client/take/question-model.ts";
import type { Analysis } from "../../src/account.ts";
import { parseChart } from "../../src/chart/index.ts";
import { sampleAccount } from "./sample-account.ts";

const BLUES = "key: F\nidiom: blues\n| F7 | Bb7 | C7 | F7 |";
type Fit = NonNullable<Analysis["alignment"]["chartFit"]>;

function account(
  chartFit: Fit | null,
  options: Partial<Analysis["options"]> = {},
  alternatives: Analysis["alignment"]["alternatives"] = [],
): Analysis {
  const base = sampleAccount();
  return {
    ...base,
    chart: { ...base.chart, text: BLUES, source: "given" },
    options: { ...base.options, chartConfirmed: false, key: null, tempo: null, ...options },
    alignment: { ...base.alignment, chartFit, alternatives },
  };
}

const WRONG: Fit = {
  verdict: "does not fit",
  score: 0.02,
  better: [
    { chart: null, key: "Bb", score: 0.9 },
    { chart: "12-bar blues", key: "C", score: 0.8 },
  ],
};

describe("the question about the chart", () => {
  it("is not asked where the chart fits, nothing can be said, or somebody vouched for it", () => {
    expect(takeQuestion(account(null))).toBeNull();
    expect(takeQuestion(account({ verdict: "fits", score: 0.95, better: [] }))).toBeNull();
    expect(takeQuestion(account(WRONG, { chartConfirmed: true }))).toBeNull();
  });

  it("says what is doubted and what fits better, with printed accidentals", () => {
    const question = takeQuestion(account(WRONG))!;
    expect(question.doubt).toBe("The notes do not fit this chart.");
    expect(question.better).toBe("Fits better: the same chart in B♭; 12-bar blues in C.");
    expect(question.answers.map(({ label }) => label)).toEqual([
      "This is the chart",
      "Same chart in B♭",
      "12-bar blues in C",
    ]);
    expect(takeQuestion(account({ ...WRONG, verdict: "doubtful" }))!.doubt).toMatch(/not sure/);
    const untold = takeQuestion(account({ verdict: "cannot be told", score: 0.7, better: [] }))!;
    expect(untold.doubt).toMatch(/cannot be told while it is not sure where its bars lie/);
    expect(untold.answers.map(({ label }) => label)).toEqual(["This is the chart"]);
  });

  it("is answered by vouching, with a way back", () => {
    const [vouch] = takeQuestion(account(WRONG))!.answers;
    expect(vouch!.change).toEqual({ options: { chartConfirmed: true } });
    expect(vouch!.undo).toEqual({ options: { chartConfirmed: false } });
  });

  it("moves the same chart by the interval between the keys: F to B flat is a fourth", () => {
    const [, same, form] = takeQuestion(account(WRONG))!.answers;
    const moved = parseChart(same!.change.chart!);
    // I IV V I in B flat. [practice]
    expect(moved.bars.map(({ chords }) => chords[0]!.symbol)).toEqual(["Bb7", "Eb7", "F7", "Bb7"]);
    expect(same!.undo.chart).toBe(BLUES);
    expect(form!.change).toMatchObject({ form: "blues-basic", key: "C" });
  });

  it("frees a key that was set apart from the chart, and sets it again on the way back", () => {
    const [, same] = takeQuestion(account(WRONG, { key: "F" }))!.answers;
    expect(same!.change.options).toEqual({ chartConfirmed: false, key: null });
    expect(same!.undo.options).toEqual({ chartConfirmed: false, key: "F" });
  });
});

describe("another reading of the beat", () => {
  const half = { tempo: 60, choruses: 1, firstBar: 1, score: 0.2, why: "half as fast" };

  it("is offered with its tempo", () => {
    const { doubt, answers, reading } = takeQuestion(account(null, {}, [half]))!;
    expect([doubt, answers]).toEqual([null, []]);
    expect(reading!.words).toContain("♩ = 60, half as fast, one chorus");
    expect(reading!.answer.change).toEqual({ options: { tempo: 60 } });
    expect(reading!.answer.undo).toEqual({ options: { tempo: null } });
  });

  it("is not offered where it is unlikely, the same tempo, or the tempo was told", () => {
    expect(takeQuestion(account(null, {}, [{ ...half, score: 0.09 }]))).toBeNull();
    expect(takeQuestion(account(null, {}, [{ ...half, score: 0.1 }]))).not.toBeNull();
    // The sample goes at 120.
    expect(takeQuestion(account(null, {}, [{ ...half, tempo: 122 }]))).toBeNull();
    expect(takeQuestion(account(null, {}, [{ ...half, tempo: 123 }]))).not.toBeNull();
    expect(takeQuestion(account(null, { tempo: 120 }, [half]))).toBeNull();
  });
});

describe("the question about the hand", () => {
  const asked = (code: string, soloHand: Analysis["options"]["soloHand"] = null): Analysis => ({
    ...account(null, { soloHand }),
    warnings: [{ code, message: "Is the solo in the left hand?", where: null }],
  });

  it.each([
    ["line-in-left-hand", ["left", "right"]],
    ["line-lies-low", ["left", "right"]],
    ["line-for-two-hands", ["both", "right"]],
    ["doubled-line", ["both", "right"]],
  ])("%s is answered by one of two hands, with a way back to the program's choice", (code, hands) => {
    const { doubt, hand } = takeQuestion(asked(code))!;
    expect(doubt).toBeNull();
    expect(hand!.answers.map(({ change }) => change.options!.soloHand)).toEqual(hands);
    for (const { undo } of hand!.answers) expect(undo).toEqual({ options: { soloHand: null } });
    expect(hand!.words).toMatch(/the right hand was taken/);
  });

  it("is not asked by any other remark", () => {
    expect(takeQuestion(asked("hands-parted"))).toBeNull();
    expect(takeQuestion(asked("line-shared", "both"))).toBeNull();
  });
});

describe("sending the settings", () => {
  it("confirms a proposed chart, opens a changed one again, and leaves the same one as it is", () => {
    const given = account(WRONG);
    const proposed: Analysis = { ...given, chart: { ...given.chart, source: "proposed" } };
    expect(confirming(proposed, { chart: BLUES })).toEqual({ chartConfirmed: true });
    expect(confirming(given, { chart: "| C7 |" })).toEqual({ chartConfirmed: false });
    expect(confirming(given, { form: "blues-basic" })).toEqual({ chartConfirmed: false });
    expect(confirming(given, { chart: BLUES })).toEqual({});
  });
});
