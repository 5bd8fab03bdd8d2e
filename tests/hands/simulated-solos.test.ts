/** Solos of simulated players with known truth. The figures for more seeds: `npm run report -- placements`. */
import { describe, expect, it } from "vitest";
import { BUILT_IN_SHAPES, type HandShape } from "../../src/hands/index.ts";
import { agreementOverSeeds } from "./simulator/agreement.ts";

const shape = (name: string): HandShape => BUILT_IN_SHAPES.find((one) => one.name === name)!;
const seeds = (first: number, count: number) => Array.from({ length: count }, (_, k) => first + k);

describe("placements found again in simulated solos", () => {
  it.each(BUILT_IN_SHAPES.map(({ name }) => name))("at least 97 in 100 notes with one shape: %s", (name) => {
    expect(agreementOverSeeds([shape(name)], 0, seeds(2000, 12)).placements).toBeGreaterThanOrEqual(0.97);
  });

  it("at least 93 in 100 with three shapes at once and 5 in 100 stray notes, over three sets of shapes", () => {
    const sets = [
      ["third-and-steps", "minor pentatonic", "major pentatonic"],
      ["third-and-steps", "five-finger major", "five-finger minor"],
      ["third-steps-third", "five-finger major", "minor pentatonic"],
    ];
    let [right, notes] = [0, 0];
    for (const names of sets) {
      const found = agreementOverSeeds(names.map(shape), 0.05, seeds(2000, 18));
      expect(found.placements, names.join(", ")).toBeGreaterThanOrEqual(0.91);
      right += found.placements * found.notes;
      notes += found.notes;
    }
    expect(right / notes).toBeGreaterThanOrEqual(0.93);
  });
});
