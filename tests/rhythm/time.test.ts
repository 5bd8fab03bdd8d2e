import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { rhythmSchema } from "../../src/account.ts";
import { describeTime, swingOf } from "../../src/rhythm/index.ts";
import { medianInterval } from "../../src/rhythm/spread.ts";
import { seeded } from "../align/simulator/random.ts";
import { chartOf, even, type PlayedNote, played, steady } from "./played.ts";

const chart = chartOf();

/** Eighths in pairs of long and short, all notes late by so many beats. */
function swung(ratio: number, pairs: number, late = 0): PlayedNote[] {
  const off = ratio / (1 + ratio) - 0.5;
  return Array.from({ length: pairs }, (_, i) => [
    { pitch: 60 + (i % 5), at: i, beats: 0.6, timing: late },
    { pitch: 62 + (i % 7), at: i + 0.5, beats: 0.3, timing: off + late },
  ]).flat();
}

describe("swing", () => {
  it("is the first part of the beat over the second, with its tempo and its short note", () => {
    expect(swingOf(played(swung(2, 8)), chart)).toEqual({
      median: 2,
      q1: 2,
      q3: 2,
      interval: { low: 2, high: 2 },
      // The last pair leads to no beat.
      beats: 7,
      tempo: 120,
      short: 166.7,
    });
  });

  it("is not changed by lying behind the beat", () => {
    expect(swingOf(played(swung(1.6, 12, 0.08)), chart)!.median).toBeCloseTo(1.6, 2);
  });

  it("is measured only in beats with exactly one note off the beat", () => {
    const triplets = Array.from({ length: 24 }, (_, i) => ({ pitch: 60 + (i % 5), at: i / 3, beats: 0.3 }));
    expect(swingOf(played(triplets), chart)).toBeNull();
    expect(swingOf(played(even([60, 62, 64, 65, 67, 69, 71, 72], 0, 0.25)), chart)).toBeNull();
    expect(swingOf(played(even([60, 62, 64, 65, 67, 69, 71, 72], 0, 1)), chart)).toBeNull();
  });

  it("is not read off notation, nor in rubato, nor in compound meters", () => {
    const printed = swung(2, 8).map((note) => ({ ...note, timing: null }));
    expect(swingOf(played(printed), chart)).toBeNull();
    expect(swingOf(played(swung(2, 8), { rubato: true }), chart)).toBeNull();
    expect(swingOf(played(swung(2, 8)), chartOf(12, { beats: 6, unit: 8 }))).toBeNull();
  });

  it("says nothing from fewer than four beats", () => {
    expect(swingOf(played(swung(2, 3)), chart)).toBeNull();
    expect(swingOf([], chart)).toBeNull();
  });

  it("is told for each beat of the bar that has enough beats of its own", () => {
    const { swingByBeat } = describeTime(played(swung(1.5, 17)), [], chart, steady(), "midi");
    expect(swingByBeat.map((s) => [s.beat, s.swing.beats])).toEqual([
      [1, 4],
      [2, 4],
      [3, 4],
      [4, 4],
    ]);
  });

  it("comes back from any ratio that is played", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.8, max: 4, noNaN: true }),
        fc.integer({ min: 60, max: 300 }),
        (ratio, tempo) => {
          const swing = swingOf(played(swung(ratio, 10), { tempo }), chart)!;
          expect(swing.median).toBeCloseTo(ratio, 2);
          expect(swing.tempo).toBeCloseTo(tempo, 0);
        },
      ),
    );
  });
});

describe("the doubt of a median", () => {
  // Of normal draws around a known middle, 95 intervals in 100 hold it, by what such an interval is.
  it("is an interval that holds the true one about 95 times in 100", () => {
    const random = seeded(5);
    let held = 0;
    for (let i = 0; i < 400; i++) {
      const [low, high] = medianInterval(Array.from({ length: 40 }, () => 30 + random.normal(20)));
      if (low <= 30 && 30 <= high) held++;
    }
    expect(held / 400).toBeGreaterThan(0.93);
    expect(held / 400).toBeLessThan(0.995);
  });

  it("grows where neighbours resemble one another", () => {
    const values = Array.from({ length: 60 }, (_, i) => Math.sin(i / 6));
    const mixed = values.map((_, i) => values[(i * 37) % 60]!);
    const width = ([low, high]: readonly [number, number]) => high - low;
    expect(width(medianInterval(values))).toBeGreaterThan(1.3 * width(medianInterval(mixed)));
  });
});

describe("early and late", () => {
  it("is told against the click in milliseconds, from notes on the beat", () => {
    // 0.06 of a beat at 120 is 30 ms.
    const { timing } = describeTime(played(swung(2, 16, 0.06)), [], chart, steady(), "midi");
    expect(timing).toMatchObject({ against: "grid", median: 30, notes: 16, heard: true });
  });

  it("is told early with a minus", () => {
    const { timing } = describeTime(played(swung(2, 16, -0.06)), [], chart, steady(), "midi");
    expect(timing!.median).toBe(-30);
  });

  it("is never told below what can be heard", () => {
    // 0.01 of a beat at 120 is 5 ms.
    const { timing } = describeTime(played(swung(2, 16, 0.01)), [], chart, steady(), "midi");
    expect(timing).toMatchObject({ median: 0, q1: 0, q3: 0, heard: false, drift: null });
    expect(timing!.threshold).toBeGreaterThanOrEqual(6);
  });

  it("without a click is told against the other hand where both strike", () => {
    const other = played(even([40, 47, 40, 47, 40, 47, 40, 47, 40, 47], 0, 1));
    const solo = played(swung(2, 16, 0.06));
    const { timing } = describeTime(solo, other, chart, steady("tracked"), "midi");
    expect(timing).toMatchObject({ against: "other hand", median: 30, notes: 10 });
    expect(describeTime(solo, [], chart, steady("tracked"), "midi").timing).toBeNull();
  });

  it("drifts when it grows over the take", () => {
    // From 0 to 60 ms late within half a minute.
    const dragging = Array.from({ length: 60 }, (_, i) => ({
      pitch: 60 + (i % 4),
      at: i,
      beats: 0.5,
      timing: (0.12 * i) / 60,
    }));
    const { timing } = describeTime(played(dragging), [], chart, steady(), "midi");
    expect(timing!.drift).toBeCloseTo(120, -1);
  });

  it("is not told of notation or in rubato", () => {
    const solo = swung(2, 16, 0.06);
    expect(describeTime(played(solo), [], chart, steady("notated"), "musicxml").timing).toBeNull();
    expect(
      describeTime(played(solo, { rubato: true }), [], chart, steady("rubato"), "midi").timing,
    ).toBeNull();
  });
});

describe("tempo", () => {
  const bars = (lengths: readonly number[]) => {
    let start = 0;
    return lengths.map((length, i) => {
      const bar = { chorus: 1, bar: i + 1, start, end: start + length, confidence: 1 };
      start += length;
      return bar;
    });
  };

  it("of even bars is steady", () => {
    const alignment = steady("tracked", 120, bars([2, 2, 2, 2, 2, 2, 2, 2]));
    expect(describeTime(played(swung(2, 8)), [], chart, alignment, "midi").tempoStability).toEqual({
      variation: 0,
      drift: 0,
    });
  });

  it("that gains speed drifts upwards, in percent a minute", () => {
    // 120 to 132 quarter notes a minute over about a minute.
    const lengths = Array.from({ length: 32 }, (_, i) => 240 / (120 + (12 * i) / 31));
    const { tempoStability } = describeTime(
      played(swung(2, 8)),
      [],
      chart,
      steady("tracked", 126, bars(lengths)),
      "midi",
    );
    expect(tempoStability!.drift).toBeGreaterThan(8);
    expect(tempoStability!.drift).toBeLessThan(11);
  });

  it("is the player's own only where the player made it", () => {
    for (const method of ["click", "notated", "rubato"] as const) {
      const alignment = steady(method, 120, bars([2, 2.2, 2, 2.1, 2]));
      expect(describeTime(played(swung(2, 8)), [], chart, alignment, "midi").tempoStability).toBeNull();
    }
  });
});

describe("the rest of a solo's time", () => {
  it("is told in shares of subdivisions, steps and rests", () => {
    // A bar of eighths, a bar of triplets on two beats and sixteenths on one, then rest.
    const solo = played([
      ...even([60, 62, 64, 65, 67, 69, 71, 72], 0, 0.5),
      ...even([72, 72, 69, 69, 65, 65], 4, 1 / 3),
      ...even([60, 67, 60, 67], 6, 0.25),
      { pitch: 60, at: 10, beats: 1 },
    ]);
    const rhythm = describeTime(solo, [], chart, steady(), "midi");
    expect(rhythm.subdivisions).toEqual({
      quarters: 1 / 19,
      eighths: 8 / 19,
      triplets: 6 / 19,
      sixteenths: 4 / 19,
    });
    expect(rhythm.density.perBar).toBeCloseTo(19 / 2.75, 2);
    expect(rhythm.density.perSecond).toBeCloseTo(19 / 5.5, 2);
    expect(rhythm.rests).toBeCloseTo(3 / 11, 2);
    expect(rhythm.longestRest).toMatchObject({ after: "n18" });
    expect(rhythm.longestRest!.beats).toBeCloseTo(3, 1);
    expect(rhythm.runs).toEqual({ share: 8 / 19, count: 1, leapsAfter: 0 });
    expect(rhythm.intervals).toEqual({
      repeat: 4 / 18,
      step: 7 / 18,
      third: 2 / 18,
      "fourth-fifth": 5 / 18,
    });
    expect(rhythmSchema.parse(rhythm)).toEqual(rhythm);
  });

  it("of nothing is empty and still an account", () => {
    const rhythm = describeTime([], [], chart, steady(), "midi");
    expect(rhythmSchema.parse(rhythm)).toEqual(rhythm);
    expect(rhythm).toMatchObject({ swing: null, timing: null, longestRest: null, rests: 0 });
  });

  it("fits the account whatever is played", () => {
    const note = fc.record({
      pitch: fc.integer({ min: 0, max: 127 }),
      at: fc.integer({ min: -8, max: 400 }).map((twelfths) => twelfths / 12),
      beats: fc.double({ min: 0.01, max: 8, noNaN: true }),
      timing: fc.double({ min: -0.2, max: 0.2, noNaN: true }),
    });
    fc.assert(
      fc.property(fc.array(note, { maxLength: 60 }), fc.boolean(), (notes, rubato) => {
        const solo = played(
          notes.sort((a, b) => a.at + a.timing - b.at - b.timing),
          { rubato },
        );
        const rhythm = describeTime(solo, solo, chart, steady(rubato ? "rubato" : "tracked"), "midi");
        expect(rhythmSchema.parse(rhythm)).toEqual(rhythm);
      }),
    );
  });
});
