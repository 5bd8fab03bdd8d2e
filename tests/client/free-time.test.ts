import { describe, expect, it } from "vitest";
import { isChangeKey, isChangePedal } from "../../client/record/free-changes.ts";
import { changeAnchors, chordKeys, freeWords, placeInFree } from "../../client/record/free-time.ts";
import { chordSpans, parseChart } from "../../src/chart/index.ts";

/** Two, five, one in C: Dm7 and G7 share a bar, Cmaj7 has the next one. */
const CHART = parseChart("key: C\n| Dm7 G7 | Cmaj7 |");
const SPANS = chordSpans(CHART);

describe("free time", () => {
  it("pins each change to the chord that follows in the chart, round after round", () => {
    expect(changeAnchors([0.5, 2, 3.25, 7, 8.5], SPANS)).toEqual([
      { seconds: 0.5, chorus: 1, bar: 1, beat: 1 },
      { seconds: 2, chorus: 1, bar: 1, beat: 3 },
      { seconds: 3.25, chorus: 1, bar: 2, beat: 1 },
      { seconds: 7, chorus: 2, bar: 1, beat: 1 },
      { seconds: 8.5, chorus: 2, bar: 1, beat: 3 },
    ]);
    expect(changeAnchors([], SPANS)).toEqual([]);
  });

  it("stays in the chord of the last change, however long it lasts, and names its notes by it", () => {
    expect(placeInFree([], SPANS, CHART, 4)).toEqual({ bars: -1, span: null });
    const long = placeInFree([0, 2], SPANS, CHART, 60);
    expect(long.span?.symbol).toBe("G7");
    expect(long.bars).toBeGreaterThan(0.5);
    expect(long.bars).toBeLessThan(1);
    // Two beats took two seconds: a second later one beat of four is gone.
    expect(placeInFree([0, 2], SPANS, CHART, 3).bars).toBeCloseTo(0.75, 6);
    expect(placeInFree([0, 2, 4, 9], SPANS, CHART, 9)).toMatchObject({ bars: 2, span: { symbol: "Dm7" } });
  });

  it("sounds the bass note, and the third and seventh, of the chord that begins", () => {
    const classes = (wanted: ("bass" | "shells")[]) =>
      chordKeys(SPANS[1]!.chord, new Set(wanted)).map((key) => key % 12);
    // G7: G in the bass; B and F are its third and seventh.
    expect(classes(["bass"])).toEqual([7]);
    expect(classes(["shells"])).toEqual([11, 5]);
    expect(chordKeys(null, new Set(["bass"] as const))).toEqual([]);
  });

  it("takes the pedal that was chosen for the change, and leaves the others what they are", () => {
    // On a piano the soft pedal is the left one, the sostenuto the middle one, the sustain the right one.
    expect(isChangePedal("left pedal", "soft")).toBe(true);
    expect(isChangePedal("left pedal", "sustain")).toBe(false);
    expect(isChangePedal("middle pedal", "sostenuto")).toBe(true);
    expect(isChangePedal("lowest key", "soft")).toBe(false);
    expect(isChangeKey("lowest key", { pitch: 21 })).toBe(true);
    expect(isChangeKey("left pedal", { pitch: 21 })).toBe(false);
  });

  it("says where the player stands", () => {
    expect(freeWords({ bars: -1, span: null }, CHART, "no notes")).toMatch(/^Free time: change to the first/);
    expect(freeWords({ bars: 3.2, span: null }, CHART, "five notes")).toBe(
      "Round 2, bar 2, five notes so far.",
    );
    expect(freeWords({ bars: 3.2, span: null }, CHART, "five notes", 8)).toMatch(/^Round 2, bar 10,/);
  });
});
