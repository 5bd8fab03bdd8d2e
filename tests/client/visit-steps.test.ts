import { describe, expect, it } from "vitest";
import { afterChange, afterUndo, NO_STEPS } from "../../client/take/visit-steps.ts";

describe("the ways back of a visit", () => {
  it("lead back one by one, the last change first", () => {
    const one = afterChange(NO_STEPS, "Bar 5 is pinned.", { anchors: [] });
    const two = afterChange(one, "Read at half the tempo.", { options: { tempo: null } });
    expect(two.at(-1)?.words).toBe("Read at half the tempo.");
    expect(afterUndo(two)).toEqual(one);
    expect(afterUndo(afterUndo(two))).toEqual([]);
  });

  it("stay where a change has none", () => {
    const one = afterChange(NO_STEPS, "Bar 5 is pinned.", { anchors: [] });
    expect(afterChange(one, "The goal is set.", undefined)).toEqual(one);
  });
});
