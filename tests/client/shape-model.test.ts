/** A hand shape in the making, without a page. Fingers are numbered from the thumb, 1, to the little finger, 5. [practice] */
import { describe, expect, it } from "vitest";
import {
  addPlace,
  CHORDS,
  changePlace,
  chooseAnchor,
  giveFinger,
  NOTHING_PRESSED,
  nameShape,
  pressKey,
  removePlace,
  type ShapeDraft,
  shapeOf,
} from "../../client/shapes/shape-model.ts";
import { QUALITIES } from "../../src/chart/types.ts";
import { BUILT_IN_SHAPES, checkShape } from "../../src/hands/index.ts";

const press = (...pitches: number[]): ShapeDraft => pitches.reduce(pressKey, NOTHING_PRESSED);

describe("keys", () => {
  it("are fingered from the thumb up, in whatever order they are pressed", () => {
    expect(press(67, 60, 63).keys).toEqual([
      { pitch: 60, finger: 1 },
      { pitch: 63, finger: 2 },
      { pitch: 67, finger: 3 },
    ]);
  });

  it("are let go by pressing them again", () => {
    expect(press(60, 63, 60).keys).toEqual([{ pitch: 63, finger: 1 }]);
    expect(press(60, 60)).toEqual(NOTHING_PRESSED);
  });

  it("are five at most: a hand has no sixth finger", () => {
    const five = press(60, 62, 64, 65, 67);
    expect(pressKey(five, 69)).toBe(five);
    expect(pressKey(five, 60).keys).toHaveLength(4);
  });

  it("take another finger when one is chosen", () => {
    const open = giveFinger(press(60, 63, 66, 70), 70, 5);
    expect(open.keys.map(({ finger }) => finger)).toEqual([1, 2, 3, 5]);
  });
});

describe("the anchor", () => {
  it("is a finger of the shape, whatever is pressed or chosen", () => {
    let draft = NOTHING_PRESSED;
    for (const pitch of [60, 64, 67, 64, 71, 60, 67, 71]) {
      draft = pressKey(draft, pitch);
      const used = draft.keys.map(({ finger }) => finger);
      expect(used.length === 0 ? [1] : used).toContain(draft.anchor);
    }
    const chosen = chooseAnchor(press(60, 63, 66), 3);
    expect(giveFinger(chosen, 63, 4).anchor).toBe(3);
    expect(giveFinger(chosen, 66, 5).anchor).toBe(2);
  });
});

describe("places of the anchor", () => {
  it("are added, changed and taken out; one always stays", () => {
    const two = changePlace(addPlace(NOTHING_PRESSED), 1, { chords: "dominant" });
    expect(two.places).toEqual([
      { degree: "1", chords: "all" },
      { degree: "5", chords: "dominant" },
    ]);
    const one = removePlace(two, 0);
    expect(one.places).toEqual([{ degree: "5", chords: "dominant" }]);
    expect(removePlace(one, 0)).toBe(one);
  });

  it("can be said of every quality of chord alone", () => {
    const alone = CHORDS.filter(({ qualities }) => qualities.length === 1).flatMap(
      ({ qualities }) => qualities,
    );
    expect(new Set(alone)).toEqual(new Set(QUALITIES));
  });
});

describe("the finished shape", () => {
  // C E flat G flat B flat, the half-diminished chord on C: a minor third, another, and a major third. [practice]
  const draft = nameShape(
    changePlace(giveFinger(press(60, 63, 66, 70), 70, 5), 0, { chords: "half" }),
    "  half-diminished four ",
  );

  it("counts semitones from its lowest key, wherever it was pressed", () => {
    expect(shapeOf(draft)).toEqual({
      name: "half-diminished four",
      fingers: [1, 2, 3, 5],
      semitones: [0, 3, 6, 10],
      anchorFinger: 1,
      anchorDegrees: [{ degree: "1", qualities: ["half-diminished", "diminished", "diminished-seventh"] }],
    });
    const higher = { ...draft, keys: draft.keys.map((key) => ({ ...key, pitch: key.pitch + 5 })) };
    expect(shapeOf(higher)).toEqual(shapeOf(draft));
  });

  it("is one that the service takes", () => {
    expect(() => checkShape(shapeOf(draft))).not.toThrow();
    expect(() => checkShape(shapeOf(NOTHING_PRESSED))).toThrow(/no name/);
  });

  it("can be any of those built in", () => {
    for (const shape of BUILT_IN_SHAPES) {
      const pressed = press(...shape.semitones.map((semitones) => 60 + semitones));
      const fingered = shape.fingers.reduce(
        (made, finger, i) => giveFinger(made, 60 + shape.semitones[i]!, finger),
        pressed,
      );
      const { fingers, semitones } = shapeOf(fingered);
      expect({ fingers, semitones }, shape.name).toEqual({
        fingers: shape.fingers,
        semitones: shape.semitones,
      });
    }
  });
});
