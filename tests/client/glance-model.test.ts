/** What can be said against the place of a take, without a page. */

import { describe, expect, it } from "vitest";
import {
  asItIs,
  barAt,
  clickAnswers,
  doubtWords,
  heardSlips,
  moves,
  namedReadings,
} from "../../client/take/glance-model.ts";
import { placeIsAsked } from "../../src/account/asked-place.ts";
import type { Analysis } from "../../src/account.ts";
import { sampleAccount } from "./sample-account.ts";

const BARS = 12;

/** Two choruses of twelve bars, two seconds each, over a steady beat of 120. */
function account(alignment: Partial<Analysis["alignment"]> = {}): Analysis {
  const base = sampleAccount();
  const bars = Array.from({ length: 2 * BARS }, (_, i) => ({
    chorus: Math.floor(i / BARS) + 1,
    bar: (i % BARS) + 1,
    start: 2 * i,
    end: 2 * i + 2,
    confidence: 0.95,
  }));
  return {
    ...base,
    chart: {
      ...base.chart,
      bars: Array.from({ length: BARS }, (_, i) => ({ ...base.chart.bars[0]!, number: i + 1 })),
    },
    options: { ...base.options, tempo: null },
    alignment: {
      ...base.alignment,
      method: "tracked",
      confidence: 0.95,
      tempo: { median: 120, slowest: 118, fastest: 122 },
      anchors: [],
      alternatives: [],
      bars,
      ...alignment,
    },
  };
}

const other = (score: number) => [
  { tempo: 60, choruses: 1, firstBar: 1, score, why: "half as fast" },
  { tempo: 180, choruses: 3, firstBar: 1, score: 0.02, why: "three beats for two" },
];
const answer = (analysis: Analysis, begins: string) =>
  moves(analysis, { chorus: 1, bar: 6 }).find(({ label }) => label.startsWith(begins))!;
const pinnedAt = (analysis: Analysis, begins: string, seconds: number) =>
  answer(analysis, begins).change.anchors?.find((anchor) => anchor.seconds === seconds);

describe("whether this is where we are", () => {
  it("is not asked where the place is sure, notated, or every bar of the form was pinned", () => {
    expect(placeIsAsked(account())).toBe(false);
    expect(placeIsAsked(account({ confidence: 0.85 }))).toBe(true);
    expect(placeIsAsked(account({ alternatives: other(0.2) }))).toBe(true);
    expect(placeIsAsked(account({ alternatives: other(0.05) }))).toBe(false);
    const unsure = account({ confidence: 0.5 });
    for (const known of [
      account({ confidence: 0.5, method: "notated" }),
      account({ confidence: 0.5, anchors: asItIs(unsure).change.anchors ?? [] }),
    ])
      expect(placeIsAsked(known)).toBe(false);
  });

  it("is asked again where the tempo was told or a bar was pinned, and the bars are not sure after it", () => {
    const told = (confidence: number) => ({
      ...account({ confidence }),
      options: { ...account().options, tempo: 120 },
    });
    expect(placeIsAsked(told(0.4))).toBe(true);
    expect(placeIsAsked(told(0.95))).toBe(false);
    const anchors = [{ seconds: 0, chorus: 1, bar: 1, beat: 1 }];
    expect(placeIsAsked(account({ confidence: 0.5, anchors }))).toBe(true);
    expect(placeIsAsked(account({ confidence: 0.95, anchors }))).toBe(false);
  });

  it("offers the other readings by name, and leaves out what nobody would take", () => {
    const [only, ...rest] = namedReadings(account({ alternatives: other(0.3) }));
    expect(rest).toEqual([]);
    expect(only?.label).toBe("♩ = 60, half as fast: one chorus, 30 % likely");
    expect(only?.change).toEqual({ anchors: [], options: { tempo: 60 } });
  });

  it("sets the pins of a reading whose tempo is the same, with the way back to those that were set", () => {
    const pins = [{ seconds: 1, chorus: 1, bar: 1, beat: 1 }];
    const anchors = [{ seconds: 0, chorus: 1, bar: 1, beat: 1 }];
    const later = {
      tempo: 120,
      choruses: 2,
      firstBar: 1,
      score: 0.2,
      why: "bars begin one beat later",
      pins,
    };
    const [named] = namedReadings(account({ alternatives: [later], anchors }));
    expect(named?.label).toBe("♩ = 120, bars begin one beat later: two choruses, 20 % likely");
    expect(named?.change).toEqual({ anchors: pins });
    expect(named?.undo).toEqual({ anchors });
  });

  it("offers the file's click where it is asked whether one was heard, with the way back", () => {
    const open = account({ anchors: [] });
    expect(clickAnswers(open)).toEqual([]);
    const code = "click-cannot-be-told";
    const [answer] = clickAnswers({ ...open, warnings: [{ code, message: "", where: null }] });
    expect(answer!.change).toEqual({ anchors: [], options: { method: "click" } });
    expect(answer!.undo).toEqual({ anchors: [], options: { method: open.options.method } });
  });

  it("offers half and double the tempo, with the way back", () => {
    expect(answer(account(), "Half as fast").change.options).toEqual({ tempo: 60 });
    expect(answer(account(), "Twice as fast").change.options).toEqual({ tempo: 240 });
    expect(answer(account(), "Half as fast").undo).toEqual({ anchors: [], options: { tempo: null } });
  });

  it("moves the form: what sounds as bar 5 becomes bar 6, or bar 4, and the second chorus goes along", () => {
    const analysis = account();
    expect(pinnedAt(analysis, "The form begins one bar earlier", 8)).toMatchObject({ chorus: 1, bar: 6 });
    expect(pinnedAt(analysis, "The form begins one bar later", 8)).toMatchObject({ chorus: 1, bar: 4 });
    expect(pinnedAt(analysis, "The form begins one bar earlier", 46)).toMatchObject({ chorus: 3, bar: 1 });
    expect(pinnedAt(analysis, "The form begins one bar later", 46)).toMatchObject({ chorus: 2, bar: 11 });
    // What was bar 1 would stand before the form.
    expect(pinnedAt(analysis, "The form begins one bar later", 0)).toBeUndefined();
  });

  it("leaves a bar out, or takes one for too many: the bars before it stay, those from it on are one on or one back", () => {
    const analysis = account();
    // Bar 6 begins at 10 s: it is missing, so that bar 7 sounds there.
    expect(pinnedAt(analysis, "A bar is missing", 10)).toMatchObject({ chorus: 1, bar: 7 });
    expect(pinnedAt(analysis, "A bar is missing", 8)).toMatchObject({ chorus: 1, bar: 5 });
    // One too many at bar 6: bar 6 is what sounds at 12 s.
    expect(pinnedAt(analysis, "One too many", 12)).toMatchObject({ chorus: 1, bar: 6 });
    expect(pinnedAt(analysis, "One too many", 10)).toBeUndefined();
    expect(pinnedAt(analysis, "One too many", 8)).toMatchObject({ chorus: 1, bar: 5 });
    for (const begins of ["A bar is missing", "One too many", "The form begins one bar later"]) {
      const anchors = answer(analysis, begins).change.anchors!;
      const places = anchors.map(({ chorus, bar }) => chorus * BARS + bar);
      expect(places).toEqual([...places].sort((a, b) => a - b));
      expect(new Set(places).size).toBe(places.length);
    }
  });

  it("asks where a bar was heard to be left out or put in, and lays the part beside the form by it", () => {
    const slip = { chorus: 1, bar: 6, beats: 4 } as const;
    const pinsOf = (irregular: Analysis["alignment"]["irregular"]) => {
      const analysis = account({ irregular });
      expect(placeIsAsked(analysis)).toBe(true);
      return heardSlips(analysis)[0]!;
    };
    const at = ({ change }: ReturnType<typeof pinsOf>, seconds: number) =>
      change.anchors!.find((anchor) => anchor.seconds === seconds);
    // Bar 6 begins at 10 s, bar 5 at 8 s.
    const missing = pinsOf([{ ...slip, kind: "missing", side: "after" }]);
    expect(missing.label).toBe("A bar is missing at bar 6 of chorus 1");
    expect(at(missing, 10)).toMatchObject({ chorus: 1, bar: 7, beat: 1 });
    expect(at(missing, 8)).toMatchObject({ chorus: 1, bar: 5 });
    const before = pinsOf([{ ...slip, kind: "missing", side: "before" }]);
    expect(at(before, 10)).toMatchObject({ chorus: 1, bar: 6 });
    expect(at(before, 8)).toMatchObject({ chorus: 1, bar: 4 });
    const extra = pinsOf([{ ...slip, kind: "extra", side: "after" }]);
    expect(extra.label).toBe("A bar too many at bar 6 of chorus 1");
    expect(at(extra, 12)).toMatchObject({ chorus: 1, bar: 6 });
    expect(at(extra, 8)).toMatchObject({ chorus: 1, bar: 5 });
    const half = pinsOf([{ ...slip, beats: 2, kind: "missing", side: "after" }]);
    expect(half.label).toBe("Half a bar is missing at bar 6 of chorus 1");
    expect(at(half, 10)).toMatchObject({ chorus: 1, bar: 6, beat: 3 });
    const beat = pinsOf([{ ...slip, beats: 1, kind: "missing", side: "after" }]);
    expect(beat.label).toBe("A beat is missing at bar 6 of chorus 1");
    expect(at(beat, 10)).toMatchObject({ chorus: 1, bar: 6, beat: 2 });
    const two = pinsOf([{ ...slip, beats: 8, kind: "extra", side: "after" }]);
    expect(two.label).toBe("Two bars too many at bar 6 of chorus 1");
    expect(at(two, 14)).toMatchObject({ chorus: 1, bar: 6, beat: 1 });
    for (const one of [missing, before, extra, half, beat, two]) {
      const places = one.change.anchors!.map(({ chorus, bar, beat }) => (chorus * BARS + bar) * 4 + beat);
      expect(places).toEqual([...places].sort((a, b) => a - b));
      expect(new Set(places).size).toBe(places.length);
    }
  });

  it("names the bar that sounds", () => {
    expect(barAt(account(), 9.9)).toMatchObject({ chorus: 1, bar: 5 });
    expect(barAt(account(), 24)).toMatchObject({ chorus: 2, bar: 1 });
    expect(barAt(account(), -1)).toBeNull();
    expect(barAt(account(), 48)).toBeNull();
  });
});

describe("that this is where we are", () => {
  it("is answered by every bar line of the form held where it sounds, and by Undo is open again", () => {
    const analysis = account({ confidence: 0.7 });
    const { change, undo } = asItIs(analysis);
    expect(change.anchors).toHaveLength(2 * BARS);
    expect(change.anchors).toContainEqual({ seconds: 26, chorus: 2, bar: 2, beat: 1 });
    expect(undo).toEqual({ anchors: [] });
  });

  it("is asked with how sure the bar lines are, and where least", () => {
    const even = account({ confidence: 0.7 });
    expect(doubtWords({ ...even, alignment: { ...even.alignment, method: "tracked" } })).toMatch(
      /^The bar lines were found by ear and are 70 % sure\. /,
    );
    expect(doubtWords({ ...even, alignment: { ...even.alignment, method: "click" } })).toMatch(
      /^The beat is the click of the file; .* by ear and is 70 % sure\. /,
    );
    const bars = even.alignment.bars.map((bar) =>
      bar.chorus === 2 && bar.bar === 3 ? { ...bar, confidence: 0.4 } : bar,
    );
    expect(doubtWords(account({ confidence: 0.7, bars }))).toContain(
      "70 % sure, least in bar 3 of chorus 2 (40 %).",
    );
  });

  it("says what the findings leave out until it is known where we are", () => {
    expect(doubtWords(account({ confidence: 0.7 }))).toMatch(/the findings leave harmony and time out\.$/);
    expect(doubtWords(account({ confidence: 0.7, method: "click" }))).toMatch(/leave the harmony out\.$/);
    expect(doubtWords(account({ confidence: 0.7, method: "rubato" }))).toMatch(/leave the harmony out\.$/);
    expect(doubtWords(account({ confidence: 0.85 }))).not.toContain("leave");
  });

  it("offers no tempo twice: a reading with its likelihood stands for half as fast", () => {
    const analysis = account({ alternatives: other(0.2) });
    const labels = (named: Parameters<typeof moves>[2]) =>
      moves(analysis, { chorus: 1, bar: 6 }, named).map(({ label }) => label);
    expect(labels([])).toContain("Half as fast");
    expect(labels(namedReadings(analysis))).not.toContain("Half as fast");
    expect(labels(namedReadings(analysis))).toContain("Twice as fast");
  });
});
