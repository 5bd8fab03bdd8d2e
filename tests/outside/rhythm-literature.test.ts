/** Phrases and time against published models, tables and thresholds. */
import { describe, expect, it } from "vitest";
import { describeTime, hearingThreshold, lbdm, swingOf } from "../../src/rhythm/index.ts";
import { syncopationShare } from "../../src/rhythm/subdivision.ts";
import { chartOf, even, played, steady } from "../rhythm/played.ts";

describe("the local boundary detection model (Cambouropoulos 2001)", () => {
  it("gives the profile that the paper's formulas give by hand", () => {
    const profile = lbdm({
      pitches: [60, 62, 64, 65, 72, 71, 69, 67],
      onsets: [0, 0.5, 1, 1.5, 3.5, 4, 4.5, 5],
      offsets: [0.5, 1, 1.5, 2, 4, 4.5, 5, 6],
    });
    [0, 0.0159, 0.0883, 1, 0.0883, 0.0159, 0].forEach((strength, i) => {
      expect(profile[i]).toBeCloseTo(strength, 4);
    });
  });

  it("has no boundaries where nothing changes, and none of fewer than two notes", () => {
    expect(lbdm({ pitches: [60, 61, 62, 63], onsets: [0, 1, 2, 3], offsets: [1, 2, 3, 4] })).toEqual([
      0, 0, 0,
    ]);
    expect(lbdm({ pitches: [60], onsets: [0], offsets: [1] })).toEqual([]);
    expect(lbdm({ pitches: [], onsets: [], offsets: [] })).toEqual([]);
  });
});

describe("swing", () => {
  // A short note of 100 ms, as ride cymbals play it over a wide range of tempos: the ratio is 600/tempo - 1
  // (Friberg & Sundström 2002).
  it.each([
    [120, 4],
    [150, 3],
    [200, 2],
    [300, 1],
  ])("with a short note of 100 ms at %d is %d to 1", (tempo, ratio) => {
    const short = (0.1 * tempo) / 60;
    const notes = Array.from({ length: 16 }, (_, i) => [
      { pitch: 60 + (i % 3), at: i, beats: 0.5 },
      { pitch: 64 + (i % 3), at: i + 0.5, beats: 0.2, timing: 0.5 - short },
    ]).flat();
    const swing = swingOf(played(notes, { tempo }), chartOf())!;
    expect(swing.median).toBeCloseTo(ratio, 2);
    expect(swing.short).toBeCloseTo(100, 0);
    expect(swing.tempo).toBeCloseTo(tempo, 0);
  });

  it("of soloists, about 1.3 to 1, is told as it is and not held against 2 to 1 (Corcoran & Frieler 2021)", () => {
    const notes = Array.from({ length: 16 }, (_, i) => [
      { pitch: 60, at: i, beats: 0.5 },
      { pitch: 64, at: i + 0.5, beats: 0.3, timing: 1.3 / 2.3 - 0.5 },
    ]).flat();
    expect(swingOf(played(notes), chartOf())!.median).toBeCloseTo(1.3, 2);
  });
});

describe("what can be heard (Friberg & Sundberg 1995)", () => {
  it.each([
    [100, 6],
    [200, 6],
    [240, 6],
    [400, 10],
    [1000, 25],
  ])("at an interval of %d ms is a difference of %d ms", (interval, least) => {
    expect(hearingThreshold(interval)).toBeCloseTo(least, 10);
  });

  it.each([
    [0.5, 4],
    [0.5, 5.5],
    [1, 12],
  ])("a lateness under the threshold (notes of %d beats, %d ms) is not told", (beats, late) => {
    const solo = even(
      Array.from({ length: 32 }, (_, i) => 60 + (i % 4)),
      0,
      beats,
    ).map((note) => ({ ...note, timing: (late / 1000) * 2 }));
    const { timing } = describeTime(played(solo), [], chartOf(), steady(), "midi");
    expect(timing).toMatchObject({ heard: false, median: 0 });
  });

  it("a lateness over it is", () => {
    const solo = even(
      Array.from({ length: 32 }, (_, i) => 60 + (i % 4)),
      0,
      0.5,
    ).map((note) => ({ ...note, timing: 0.016 }));
    const { timing } = describeTime(played(solo), [], chartOf(), steady(), "midi");
    expect(timing).toMatchObject({ heard: true, median: 8 });
  });
});

describe("syncopation (Longuet-Higgins & Lee 1984)", () => {
  const shareOf = (places: readonly (readonly [at: number, beats: number])[]) =>
    syncopationShare(played(places.map(([at, beats]) => ({ pitch: 60, at, beats }))), 4);

  it("is a note on a weak place that is held over a stronger one", () => {
    // The off-beat after two held over three: one of two notes. [practice]
    expect(
      shareOf([
        [0, 1.5],
        [1.5, 2.5],
      ]),
    ).toBe(0.5);
    // Off-beats that stop before the beat, and notes on the beats, are not.
    expect(
      shareOf([
        [0, 0.5],
        [0.5, 0.5],
        [1, 0.5],
        [1.5, 0.5],
      ]),
    ).toBe(0);
    // Beat two held over three, and beat four over the bar line.
    expect(
      shareOf([
        [1, 2],
        [3, 2],
      ]),
    ).toBe(1);
    // Beat three does not reach the bar line.
    expect(shareOf([[2, 2]])).toBe(0);
  });
});
