/** Lateness and swing of whole lines, written by arithmetic: what was put in must come out, or nothing be said. */
import { describe, expect, it } from "vitest";
import { align, placeNotes } from "../../src/align/index.ts";
import type { AlignOptions } from "../../src/align/types.ts";
import { chordSpans, formChart } from "../../src/chart/index.ts";
import { partHands } from "../../src/parting/part-hands.ts";
import { describeTime } from "../../src/rhythm/index.ts";
import { type PlayedNote, takeOf } from "./human-solos.ts";

const CHART = formChart("blues-basic", "F");
const CHORUSES = 3;
/** Eighths of a bar that are played, and semitones over the chord's root. */
const FIGURES = [
  [0, 4, 7, 9, 10, 9, 7, 4],
  [4, 7, 10, 14, 12, 10, null, null],
  [null, null, 7, 9, 10, 7, 4, 0],
] as const;

interface Line {
  readonly tempo: number;
  readonly swing: number;
  /** Milliseconds. */
  readonly late: number;
  readonly stated: boolean;
}

function timeOf({ tempo, swing, late, stated }: Line, options: Partial<AlignOptions> = {}) {
  const beat = 60 / tempo;
  const notes: PlayedNote[] = [];
  for (let bar = 0; bar < CHORUSES * CHART.bars.length; bar++) {
    const root = 60 + (CHART.bars[bar % CHART.bars.length]!.chords[0]!.chord!.rootClass % 12);
    FIGURES[bar % FIGURES.length]!.forEach((step, k) => {
      if (step === null) return;
      const place = bar * 4 + Math.floor(k / 2) + (k % 2) * (swing / (1 + swing));
      // Two bars of count-in; an unrest of 8 ms.
      const onset = (place + 8) * beat + (late + 8 * Math.sin(2.4 * notes.length)) / 1000;
      notes.push({
        pitch: root + step,
        onset,
        duration: 0.4 * beat,
        tick: Math.round((onset / beat) * 480),
        part: "t1",
      });
    });
  }
  const tempos = [{ tick: 0, seconds: 0, quartersPerMinute: stated ? tempo : 120 }];
  const take = takeOf(notes, { tempos, stated, meterStated: stated });
  const { hands } = partHands(take, { soloPart: null, soloStaff: null, soloHand: null });
  const alignment = align(take, CHART, hands, { method: "auto", tempo: null, anchors: [], ...options });
  const placed = placeNotes(take, CHART, chordSpans(CHART), hands, alignment);
  return describeTime(placed, [], CHART, alignment, "midi");
}

const LATE = [0, 30, 50, 80, 100, 120] as const;
const CASES = [92, 132, 160].flatMap((tempo) =>
  LATE.map((late) => ({ tempo, late, swing: 1.6, stated: true })),
);

describe("a line alone over the click that its file states", () => {
  it.each(CASES)("at $tempo quarter notes a minute and $late ms late is told so", (line) => {
    const { timing, swing } = timeOf(line);
    expect(timing).toMatchObject({ against: "grid" });
    expect(Math.abs(timing!.median - line.late)).toBeLessThanOrEqual(8);
    expect(timing!.interval!.low).toBeLessThanOrEqual(line.late + 3);
    expect(timing!.interval!.high).toBeGreaterThanOrEqual(line.late - 3);
    expect(swing!.median).toBeGreaterThan(1.5);
    expect(swing!.median).toBeLessThan(1.7);
    expect(swing!.interval!.low).toBeLessThanOrEqual(1.6);
    expect(swing!.interval!.high).toBeGreaterThanOrEqual(1.6);
  });

  it("is told so as well when the user says that there was a click", () => {
    const { timing } = timeOf({ tempo: 120, swing: 1.5, late: 70, stated: true }, { method: "click" });
    expect(Math.abs(timing!.median - 70)).toBeLessThanOrEqual(8);
  });

  it("is not told where even eighths could be early as well as late", () => {
    const { timing, untimed } = timeOf({ tempo: 260, swing: 1, late: 80, stated: true });
    expect(timing).toBeNull();
    expect(untimed).toBe("two readings");
  });
});

describe("a line without a click that is known", () => {
  // The beat is drawn through the line's own notes: their mean distance from it tells nothing of when a click was.
  it.each([{}, { method: "click" as const }, { tempo: 120 }])("has no early and late (%j)", (options) => {
    const { timing, untimed } = timeOf({ tempo: 120, swing: 1.6, late: 40, stated: false }, options);
    expect(timing).toBeNull();
    expect(untimed).toBe("no click");
  });
});
