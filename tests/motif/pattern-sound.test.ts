import { describe, expect, it } from "vitest";
import { inContext, patternSound } from "../../src/motif/index.ts";

describe("a pattern to be heard", () => {
  it("goes by its intervals, and by its lengths where it has them", () => {
    expect(patternSound({ viewpoint: "chromatic interval", symbols: [3, 2, -5] })).toEqual(
      [67, 70, 72, 67].map((pitch) => ({ pitch, beats: 0.5 })),
    );
    expect(
      patternSound({ viewpoint: "interval and rhythm", symbols: ["+2, 1 beat", "-2, 0.33 beats"] }),
    ).toEqual([
      { pitch: 67, beats: 1 },
      { pitch: 69, beats: 0.33 },
      { pitch: 67, beats: 0.5 },
    ]);
  });

  it("goes by its degrees over C, each at the octave nearest to the note before", () => {
    // b7 9 1 over C: Bb4, D5, C5.
    const sound = patternSound({ viewpoint: "degree", symbols: ["b7", "9", "1"] })!;
    expect(sound.map(({ pitch }) => pitch)).toEqual([70, 74, 72]);
  });

  it("is tapped on one key where it is a rhythm, and is silent where it names no notes", () => {
    const tapped = patternSound({ viewpoint: "rhythm", symbols: ["1 beat", "0.5 beats"] })!;
    expect(new Set(tapped.map(({ pitch }) => pitch)).size).toBe(1);
    expect(tapped.map(({ beats }) => beats)).toEqual([1, 0.5, 0.5]);
    expect(patternSound({ viewpoint: "finger", symbols: [1, 2] })).toBeNull();
    expect(patternSound({ viewpoint: "contour", symbols: ["step up"] })).toBeNull();
    expect(patternSound({ viewpoint: "rhythm", symbols: ["1.4 times longer"] })).toBeNull();
  });
});

it("a hit is shown with four notes on either side, as far as there are any, and when they start", () => {
  const notes = [60, 62, 64, 65, 67, 69].map((pitch, i) => ({
    id: `n${i + 1}`,
    pitch,
    onset: 1 + i / 2,
    duration: 0.4,
    position: i,
    degree: null,
    finger: null,
    chorus: 1,
    bar: 1,
    beat: 1,
  }));
  const hit = {
    take: "t",
    firstNote: "n2",
    lastNote: "n3",
    notes: 2,
    chorus: 1,
    bar: 1,
    beat: 1,
    edits: 0,
    pitch: 62,
  };
  expect(inContext(hit, { id: "t", notes })).toEqual({
    ...hit,
    ids: ["n1", "n2", "n3", "n4", "n5", "n6"],
    before: [60],
    pitches: [62, 64],
    after: [65, 67, 69],
    onsets: [-0.5, 0, 0.5, 1, 1.5, 2],
  });
});
