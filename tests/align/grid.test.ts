import { describe, expect, test } from "vitest";
import { snapOnsets, swingFeel } from "../../src/align/grid.ts";
import { ONE_STROKE } from "../../src/take/index.ts";

const snap = (phases: readonly number[], swing: number, pulse = 0.5) =>
  snapOnsets(
    phases,
    (i) => (phases[i]! - phases[i - 1]!) * pulse < ONE_STROKE,
    () => pulse,
    () => swing,
  ).map((place) => place.written);

describe("the grid that a note was played on", () => {
  // A swing ratio of 2:1 puts the off-beat at two thirds of the beat (definition of the beat-upbeat ratio).
  test("writes a swung off-beat as .5, and measures it against its own place", () => {
    const places = snapOnsets(
      [0, 0.66, 1, 1.68, 2],
      () => false,
      () => 0.5,
      () => 2 / 3,
    );
    expect(places.map((place) => place.written)).toEqual([0, 0.5, 1, 1.5, 2]);
    expect(places[1]!.played).toBeCloseTo(2 / 3, 12);
  });

  test("tells triplets and sixteenths from swung eighths", () => {
    expect(snap([0.01, 0.34, 0.66, 1], 0.62)).toEqual([0, 1 / 3, 2 / 3, 1]);
    expect(snap([0, 0.26, 0.49, 0.76, 1], 0.6)).toEqual([0, 0.25, 0.5, 0.75, 1]);
    expect(snap([0.34], 0.62)).toEqual([1 / 3]);
    expect(snap([0, 0.52, 1, 1.49], 0.5)).toEqual([0, 0.5, 1, 1.5]);
  });

  test("gives a note struck a little before the beat to the beat", () => {
    expect(snap([0.96, 1.6], 0.6)).toEqual([1, 1.5]);
  });

  test("keeps the notes of one stroke together", () => {
    expect(snap([1, 1.03, 1.06], 0.6)).toEqual([1, 1, 1]);
  });

  test("measures the take's own swing: 3:1 is three quarters of the beat, 1:1 the half", () => {
    const line = (place: number) => Array.from({ length: 40 }, (_, i) => Math.floor(i / 2) + (i % 2) * place);
    expect(swingFeel(line(0.75)).median).toBeCloseTo(0.75, 1);
    expect(swingFeel(line(0.5)).median).toBeCloseTo(0.5, 1);
    expect(swingFeel(line(0.6)).at(10)).toBeCloseTo(0.6, 1);
  });
});
