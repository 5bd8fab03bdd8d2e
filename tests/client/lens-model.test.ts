/** A lens by choosing measures and bounds: what the form makes is what the checks of a lens accept. */
import { describe, expect, it } from "vitest";
import * as model from "../../client/lenses/lens-model.ts";
import { checkLens, LENSES } from "../../src/lens/index.ts";

const named = model.changed(model.NEW_LENS, { name: "Room", about: "Leave room." });

describe("making a lens", () => {
  it("needs a name, a concept and numbers", () => {
    expect(model.missing(model.NEW_LENS)).toContain("name");
    expect(model.missing(named)).toBeNull();
    expect(model.missing(model.askChanged(named, 0, { amount: "" }))).toContain("two numbers");
    expect(model.missing(model.askChanged(named, 0, { amount: "many" }))).toContain("two numbers");
  });

  it("takes percent where it is a share, and whole units elsewhere", () => {
    const [ask] = model.lensOf(model.askChanged(named, 0, { amount: "30", partly: "20" })).asks;
    expect(ask).toEqual({ measure: "rests", least: 0.3, most: null, partly: 0.2 });
    const seconds = model.askChanged(named, 0, { measure: "longest-phrase" });
    expect(model.lensOf(seconds).asks[0]).toEqual({
      measure: "longest-phrase",
      least: null,
      most: 10,
      partly: 15,
    });
  });

  it("makes lenses that pass the checks, from nothing and after every pattern", () => {
    const more = model.exerciseAdded(model.askAdded(model.askAdded(named)));
    expect(checkLens(model.lensOf(more)).asks).toHaveLength(3);
    for (const lens of LENSES) {
      const made = model.lensOf(model.draftFrom(lens));
      expect(checkLens(made)).toMatchObject({ asks: lens.asks, said: lens.said });
    }
  });

  it("asks four numbers at most and one at least, none twice", () => {
    let draft = named;
    for (let k = 0; k < 6; k++) draft = model.askAdded(draft);
    expect(new Set(draft.asks.map(({ measure }) => measure)).size).toBe(4);
    for (let k = 0; k < 6; k++) draft = model.askRemoved(draft, 0);
    expect(draft.asks).toHaveLength(1);
  });
});
