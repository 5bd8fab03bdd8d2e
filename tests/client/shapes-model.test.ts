/** The page of hand shapes, without a page. */
import { describe, expect, it } from "vitest";
import * as shapes from "../../client/shapes/shapes-model.ts";
import type { ShapeRow } from "../../server/contract/library.ts";
import type { HandShape } from "../../src/hands/shape.ts";

const SHAPE: HandShape = {
  name: "half-diminished four",
  fingers: [1, 2, 3, 5],
  semitones: [0, 3, 6, 10],
  anchorFinger: 2,
  anchorDegrees: [
    { degree: "b3", qualities: ["half-diminished"] },
    { degree: "b3", qualities: ["diminished"] },
    { degree: "5", qualities: [] },
  ],
};
const EMPTY: shapes.ShapesState = { own: [], refused: null };
const row = { id: "s1", name: SHAPE.name, shape: SHAPE } as unknown as ShapeRow;

describe("the teacher's own shapes", () => {
  it("have each its own name", () => {
    expect(() => shapes.checkName(EMPTY, SHAPE)).not.toThrow();
    expect(() => shapes.checkName(shapes.ownRead(EMPTY, [row]), SHAPE)).toThrow(/already.*another name/);
  });

  it("are told by fingers, distances and where they stand, each degree once", () => {
    expect(shapes.shapeName(SHAPE)).toBe("Half-diminished four");
    expect(shapes.shapeWords(SHAPE)).toBe(
      "Fingers 1 2 3 5 on 0 3 6 10 semitones; index finger on the minor third or the fifth.",
    );
    expect(shapes.shapeWords({ ...SHAPE, anchorDegrees: [] })).toContain("on any degree.");
    expect(shapes.pictureWords(SHAPE)).toContain("fingers 1 2 3 5");
  });

  it("that cannot be read are refused by the name of their file, with what to give instead", () => {
    const { message } = shapes.unreadable("claw.json", new Error("it has no fingers"));
    expect(message).toMatch(/“claw\.json”.*it has no fingers.*exported here/);
    expect(shapes.shapeRefused(EMPTY, message).refused).toBe(message);
  });
});
