import { describe, expect, it } from "vitest";
import { barsOf, mainMeter } from "../../src/chart/take-bars.ts";
import { type SourceBar, secondsOfTick, type Take } from "../../src/take/index.ts";
import { emptyTake } from "../take/empty-take.ts";
import { noteAt } from "./comping-take.ts";

const TICKS = 480;
const bar = (tick: number, ticks: number, implicit = false): SourceBar => ({
  number: "",
  tick,
  ticks,
  implicit,
  pass: 0,
});
/** A take of notes that last `seconds`, at 120 quarter notes a minute: 960 ticks a second. */
const lasting = (seconds: number, changes: Partial<Take> = {}) =>
  emptyTake({ notes: [noteAt(1, 60, 0, seconds, 120)], ...changes });
const lines = (take: Take, phase = 0) => barsOf(take, phase).map(({ tick, ticks }) => [tick, ticks]);

describe("the bars of a notated take", () => {
  // MusicXML 4.0, attribute `implicit` of <measure>: a pickup, or a part of a measure that is split.
  it("begin after the pickup", () => {
    const bars = [bar(0, 480, true), bar(480, 1920), bar(2400, 1920)];
    expect(lines(emptyTake({ bars }))).toEqual([
      [480, 1920],
      [2400, 1920],
    ]);
  });

  it("join a bar that is split by a repeat sign", () => {
    const bars = [bar(0, 1920), bar(1920, 1440), bar(3360, 480, true), bar(3840, 1920)];
    expect(lines(emptyTake({ bars }))).toEqual([
      [0, 1920],
      [1920, 1920],
      [3840, 1920],
    ]);
  });

  it("are one bar where every measure is a part of it", () => {
    expect(lines(emptyTake({ bars: [bar(0, 480, true), bar(480, 1440, true)] }))).toEqual([[0, 1920]]);
  });
});

describe("the bars of a take that has only a meter", () => {
  it("reach to the end of the last note", () => {
    expect(lines(lasting(4))).toEqual([
      [0, 1920],
      [1920, 1920],
    ]);
    expect(lines(lasting(4.1))).toHaveLength(3);
    expect(lines(emptyTake())).toEqual([]);
  });

  it("reach to the last chord symbol, the one on a bar line included", () => {
    const chords = [{ tick: 3840, text: "C7" }];
    expect(lines(emptyTake({ chords }))).toHaveLength(3);
    expect(lines(lasting(10, { chords }))).toHaveLength(5);
  });

  it("change with the meter, and stop where the next one starts", () => {
    const meters = [
      { tick: 0, beats: 6, unit: 8 },
      { tick: 2880, beats: 3, unit: 4 },
      { tick: 4320, beats: 2, unit: 2 },
    ];
    expect(lines(lasting(6, { meters }))).toEqual([
      [0, 1440],
      [1440, 1440],
      [2880, 1440],
      [4320, 1920],
    ]);
  });

  it("start later where the bar lines are moved", () => {
    const meters = [
      { tick: 0, beats: 4, unit: 4 },
      { tick: 3840, beats: 3, unit: 4 },
    ];
    expect(lines(lasting(6, { meters }), 480).map(([tick]) => tick)).toEqual([480, 2400, 3840, 5280]);
  });

  it("have an end, however long the last note is held", () => {
    expect(barsOf(lasting(24 * 3600 * 2))).toHaveLength(20_000);
  });
});

describe("the main meter", () => {
  const mark = (tick: number, beats: number, unit = 4) => ({ tick, beats, unit });
  it("is that of most of the take, all its stretches together", () => {
    // 3/4 for 4 s, 4/4 for 6 s, 3/4 for 4 s.
    const meters = [mark(0, 3), mark(3840, 4), mark(9600, 3)];
    expect(mainMeter(lasting(14, { meters }))).toEqual({ beats: 3, unit: 4 });
    expect(mainMeter(lasting(10.5, { meters }))).toEqual({ beats: 4, unit: 4 });
  });

  it("does not take a meter for another with as many beats", () => {
    // 6/8 for 3 s, 6/4 for 4 s, 5/8 for 5 s: 6/8 and 6/4 are two meters.
    const meters = [mark(0, 6, 8), mark(2880, 6, 4), mark(6720, 5, 8)];
    expect(mainMeter(lasting(12, { meters }))).toEqual({ beats: 5, unit: 8 });
  });

  it("is the first of two that last as long", () => {
    const meters = [mark(0, 3), mark(2880, 4)];
    expect(mainMeter(lasting(6, { meters }))).toEqual({ beats: 3, unit: 4 });
  });

  it("is the stated one where nothing sounds, and 4/4 where none is stated", () => {
    expect(mainMeter(emptyTake({ meters: [mark(0, 5)] }))).toEqual({ beats: 5, unit: 4 });
    // Standard MIDI Files 1.0: without a time signature it is 4/4.
    expect(mainMeter(lasting(2, { meters: [] }))).toEqual({ beats: 4, unit: 4 });
  });

  it("does not count a change after the last note", () => {
    expect(mainMeter(lasting(2, { meters: [mark(0, 4), mark(96_000, 3)] }))).toEqual({ beats: 4, unit: 4 });
    expect(mainMeter(lasting(2, { meters: [mark(0, 4), mark(1000, 3), mark(96_000, 7)] }))).toEqual({
      beats: 3,
      unit: 4,
    });
  });
});

describe("the seconds of a tick", () => {
  // 480 ticks a quarter: at 120 a quarter lasts 0.5 s, from tick 960 on, at 60, it lasts 1 s.
  const take = emptyTake({
    tempos: [
      { tick: 0, seconds: 0, quartersPerMinute: 120 },
      { tick: 960, seconds: 1, quartersPerMinute: 60 },
    ],
  });
  it("follow the tempo map", () => {
    const at = (quarter: number) => secondsOfTick(take, quarter * TICKS);
    expect([0, 1, 2, 3, 4.5].map(at)).toEqual([0, 0.5, 1, 2, 3.5]);
  });

  it("count from the first tempo, before it as after it", () => {
    const late = emptyTake({ tempos: [{ tick: 480, seconds: 0.5, quartersPerMinute: 120 }] });
    expect(secondsOfTick(late, 0)).toBe(0);
  });
});
