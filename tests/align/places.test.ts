/**
 * Places within the beat: by the arithmetic of note values, and on open solos whose notes people put on places (half 1;
 * half 0 taught the prices of finer grids). Skipped by name where the data is missing.
 */
import { describe, expect, it } from "vitest";
import { snapOnsets } from "../../src/align/grid.ts";
import { OPEN_SOLOS_MISSING } from "../outside/open-solos.ts";
import { placeFigures } from "./count-places.ts";

const snap = (phases: readonly number[], pulse: number, swing = 0.58) =>
  snapOnsets(
    phases,
    () => false,
    () => pulse,
    () => swing,
  ).map(({ written }) => written);

describe("fast notes", () => {
  // So many equal parts of a beat are quintuplets, sixteenth triplets, septuplets, thirty-seconds [practice]; each
  // stroke moves by up to a hundredth of the beat, one way and the other.
  it.each([5, 6, 7, 8])("of %d in a beat stand on as many places", (parts) => {
    const truth = Array.from({ length: parts }, (_, i) => 3 + i / parts);
    const played = truth.map((place, i) => place + 0.01 * (i % 2 === 0 ? 1 : -1));
    expect(snap([2, ...played, 4], 1)).toEqual([2, ...truth, 4]);
  });

  it("never share a place, nor change their order, however they are played", () => {
    const phases = Array.from({ length: 90 }, (_, i) => i / 7.3 + 0.04 * Math.sin(3 * i));
    const places = snap(phases, 0.9);
    for (let i = 1; i < places.length; i++) expect(places[i]).toBeGreaterThan(places[i - 1]!);
  });

  it("leave the beat to the note that is struck on it when another comes just before", () => {
    expect(snap([0.93, 1.01, 2], 0.6).slice(1)).toEqual([1, 2]);
    expect(snap([0.93, 1.01, 2], 0.6)[0]).toBeLessThan(1);
  });
});

describe.skipIf(OPEN_SOLOS_MISSING !== null)("notes of the held-out open solos", () => {
  // 14.5 % of the notes of half 0 shared a place, 42 % in slow solos, when the grid ended at sixteenths.
  it("stand on places of their own, mostly where people put them", () => {
    const figures = placeFigures(1, 40);
    expect(figures.all!.shared / figures.all!.notes).toBeLessThan(0.001);
    expect(figures.all!.right / figures.all!.notes).toBeGreaterThan(0.74);
    expect(figures["under 100"]!.right / figures["under 100"]!.notes).toBeGreaterThan(0.58);
  });
});
