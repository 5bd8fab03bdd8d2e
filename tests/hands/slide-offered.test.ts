import { describe, expect, it } from "vitest";
import { heldShape } from "../../src/hands/placements.ts";
import type { HandShape } from "../../src/hands/shape.ts";
import { slideOf } from "../../src/hands/slides.ts";

const shape = (fingers: HandShape["fingers"], semitones: readonly number[]): HandShape => ({
  name: "tried here",
  fingers,
  semitones,
  anchorFinger: 2,
  anchorDegrees: [],
});

/** The shape with its second finger on A: the fourth is on B flat or B. */
const stands = (one: HandShape, low = 69) => slideOf({ held: heldShape(one, "right"), low });

// A finger falls from a black key into the white one beside it; into a key under another finger it cannot. [practice]
describe("a placement offers its slide", () => {
  it("from a black key to the free white key above it", () => {
    expect(stands(shape([2, 4], [0, 1]))).toEqual({ from: 70, to: 71 });
    expect(stands(shape([2, 4, 5], [0, 1, 3]))).toEqual({ from: 70, to: 71 });
  });

  it("not into a key that another finger holds", () => {
    expect(stands(shape([2, 4, 5], [0, 1, 2]))).toBeNull();
  });

  it("not from a white key", () => {
    expect(stands(shape([2, 4], [0, 2]))).toBeNull();
  });
});
