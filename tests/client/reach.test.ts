import { describe, expect, it } from "vitest";
import { reachByChorus } from "../../client/views/reach.ts";
import { sampleAccount } from "./sample-account.ts";

/** Notes of placements, each given by its keys. */
function notesOf(...placements: readonly (readonly number[])[]) {
  const [note] = sampleAccount().notes;
  return placements.flatMap((keys, i) =>
    keys.map((pitch) => ({ ...note!, pitch, chorus: 1, placement: `p${i + 1}` })),
  );
}

// A hand that stands on C to F and then on B to E does not cover the keys between: seven white keys are two places.
describe("the reach behind a chorus's notes", () => {
  it("is one band where placements overlap or meet on neighbouring keys", () => {
    expect(reachByChorus(notesOf([60, 65], [64, 67])).get(1)).toEqual([[60, 67]]);
    expect(reachByChorus(notesOf([60, 65], [66, 70])).get(1)).toEqual([[60, 70]]);
  });

  it("leaves out the keys that the hand did not stand on, be it one", () => {
    expect(reachByChorus(notesOf([60, 65], [67, 70])).get(1)).toEqual([
      [60, 65],
      [67, 70],
    ]);
    expect(reachByChorus(notesOf([60, 65], [71, 76])).get(1)).toEqual([
      [60, 65],
      [71, 76],
    ]);
  });

  it("is told by chorus, and of placed notes alone", () => {
    const [a, b, c] = notesOf([60], [72], [84]);
    const found = reachByChorus([a!, { ...b!, chorus: 2 }, { ...c!, placement: null }]);
    expect([...found]).toEqual([
      [1, [[60, 60]]],
      [2, [[72, 72]]],
    ]);
  });
});
