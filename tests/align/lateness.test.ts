import { describe, expect, it } from "vitest";
import { latenessOf } from "../../src/take/index.ts";

/** Pairs of eighths of a ratio at a tempo, all late by so many milliseconds, with a steady unrest of up to 12 ms. */
function pairs(tempo: number, ratio: number, late: number): number[] {
  const beat = 60_000 / tempo;
  return Array.from({ length: 96 }, (_, i) => {
    const place = Math.floor(i / 2) + (i % 2) * (ratio / (1 + ratio));
    return place + (late + 12 * Math.sin(2.4 * i)) / beat;
  });
}

const CASES = [80, 120, 160].flatMap((tempo) =>
  [1.2, 1.6, 2].flatMap((ratio) => [-40, 0, 30, 60, 90, 120].map((late) => [tempo, ratio, late] as const)),
);

describe("lateness against a given beat (the onsets are moved by arithmetic)", () => {
  it.each(CASES)(
    "at %d quarter notes a minute, swing %f, %d ms late, is found to within 25 ms or is not said to be sure",
    (tempo, ratio, late) => {
      const found = latenessOf(pairs(tempo, ratio, late), 60 / tempo);
      const away = Math.abs(found.beats * (60_000 / tempo) - late);
      if (found.sure >= 0.9) expect(away).toBeLessThanOrEqual(25);
      if (tempo <= 120) expect(away).toBeLessThanOrEqual(25);
    },
  );

  it("is not sure where even eighths could be early or late by half a beat", () => {
    expect(latenessOf(pairs(260, 1, 85), 60 / 260).sure).toBeLessThan(0.9);
  });

  it("is not told of a few notes", () => {
    expect(latenessOf([0.1, 1.1, 2.1], 0.5)).toEqual({ beats: 0, sure: 0 });
  });
});
