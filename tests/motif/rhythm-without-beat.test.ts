import { describe, expect, it } from "vitest";
import { codesOf, symbolOf } from "../../src/motif/viewpoints.ts";

/** Three notes without a beat: the first step takes a second, the second so many. */
function secondStep(seconds: number): string | number {
  const line = [0, 1, 1 + seconds].map((onset) => ({
    pitch: 60,
    onset,
    position: null,
    degree: null,
    finger: null,
  }));
  return symbolOf(codesOf(line, "rhythm")[1]!, "rhythm");
}

describe("rhythm without a beat", () => {
  // Note values from the sixteenth to the whole note are 2, 4, 8 and 16 times as long.
  it("tells apart what notation writes as note values of their own", () => {
    expect([1, 2, 4, 8, 16].map(secondStep)).toEqual([
      ...["same length", "2 times longer", "4 times longer", "8 times longer", "16 times longer"],
    ]);
    expect([1 / 2, 1 / 4, 1 / 8, 1 / 16].map(secondStep)).toEqual([
      ...["2 times shorter", "4 times shorter", "8 times shorter", "16 times shorter"],
    ]);
  });

  it("takes anything longer for a rest, whatever its length", () => {
    expect(secondStep(40)).toBe(secondStep(16));
  });
});
