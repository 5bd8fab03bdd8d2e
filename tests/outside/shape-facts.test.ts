/**
 * Facts about the hand shapes that any pianist can check at the keyboard [practice]: which keys lie under the
 * fingers, on which chords the shape stands, and where a finger can slide from a black key to a white one.
 */
import { describe, expect, it } from "vitest";
import { chordSpans, parseChart, parseChord } from "../../src/chart/index.ts";
import { BUILT_IN_SHAPES, fitsChord, placementMap } from "../../src/hands/index.ts";
import { keyNameOn } from "../../src/hands/key-names.ts";
import { anchorPitch, heldShape, keysOf, type Placement } from "../../src/hands/placements.ts";
import { isIdiomaticSlide, slideOf } from "../../src/hands/slides.ts";

const C = 60;
const named = (name: string) => BUILT_IN_SHAPES.find((shape) => shape.name === name)!;
const thirdAndSteps = named("third-and-steps");
const thirdStepsThird = named("third-steps-third");

/** The placement with its anchor finger on a key. */
function placed(name: string, anchor: number): Placement {
  const held = heldShape(named(name), "right");
  return { held, low: anchor - held.semitones[held.anchor]! };
}

function names(name: string, anchor: number): string {
  const c7 = parseChord("C7")!;
  return keysOf(placed(name, anchor))
    .map((key) => keyNameOn(c7, key))
    .join(" ");
}

describe("the shape of a minor third and two steps", () => {
  it.each([
    ["C", C, "A C D Eb"],
    ["G", C + 7, "E G A Bb"],
    ["F", C + 5, "D F G Ab"],
    ["D", C + 2, "B D E F"],
  ])(
    "with the index finger on %s has its keys under thumb, index, middle and ring finger",
    (_, anchor, keys) => {
      expect(names("third-and-steps", anchor)).toBe(keys);
    },
  );

  it("gains a third above with the little finger", () => {
    expect(names("third-steps-third", C)).toBe("A C D Eb G");
  });

  it.each([
    ["C7", ["C", "G"]],
    ["F7", ["F", "C"]],
    ["G7", ["G", "D"]],
  ])("stands on %s with the index finger on %s", (symbol, anchors) => {
    const chord = parseChord(symbol)!;
    for (const shape of [thirdAndSteps, thirdStepsThird]) {
      const stands = Array.from({ length: 12 }, (_, pitch) => pitch).filter((pitch) =>
        fitsChord(shape, pitch, chord),
      );
      expect(new Set(stands.map((pitch) => keyNameOn(chord, pitch)))).toEqual(new Set(anchors));
    }
  });

  it("shares a placement between C7 and F7, and another between C7 and G7", () => {
    const shared = (a: string, b: string) =>
      Array.from({ length: 12 }, (_, pitch) => pitch).filter((pitch) =>
        [a, b].every((symbol) => fitsChord(thirdAndSteps, pitch, parseChord(symbol)!)),
      );
    expect(shared("C7", "F7")).toEqual([0]);
    expect(shared("C7", "G7")).toEqual([7]);
  });

  it("has the upper placement's thumb a half step above the lower placement's fourth finger", () => {
    const lower = keysOf(placed("third-and-steps", C));
    const upper = keysOf(placed("third-and-steps", C + 7));
    expect(upper[0]! - lower[3]!).toBe(1);
  });

  it("gives over C7, from both placements, Mixolydian without its fourth but with the blue third", () => {
    const both = new Set(
      [...keysOf(placed("third-and-steps", C)), ...keysOf(placed("third-and-steps", C + 7))].map(
        (key) => key % 12,
      ),
    );
    const expected = [0, 2, 3, 4, 7, 9, 10]; // C D Eb E G A Bb
    expect([...both].sort((a, b) => a - b)).toEqual(expected);
  });
});

describe("slides with the fourth finger", () => {
  const [c7] = chordSpans(parseChart("key: C\nidiom: blues\n| C7 |"));

  it("goes from the blue third into the third when the index finger is on C: idiomatic on C7", () => {
    const slide = slideOf(placed("third-and-steps", C))!;
    expect([slide.from, slide.to]).toEqual([63, 64]);
    expect(isIdiomaticSlide(slide.to, c7!)).toBe(true);
  });

  it("goes from the seventh into the major seventh when it is on G: bold on C7", () => {
    const slide = slideOf(placed("third-and-steps", C + 7))!;
    expect([slide.from, slide.to]).toEqual([70, 71]);
    expect(isIdiomaticSlide(slide.to, c7!)).toBe(false);
  });

  it("is not there when it is on D: the fourth finger is on F, a white key", () => {
    expect(slideOf(placed("third-and-steps", C + 2))).toBeNull();
  });
});

describe("the placement map of a twelve-bar blues in C", () => {
  const chart = parseChart(
    "key: C\nidiom: blues\n| C7 | F7 | C7 | % | F7 | % | C7 | % | G7 | F7 | C7 | G7 |",
  );
  const map = placementMap(chart, chordSpans(chart), [thirdAndSteps]);
  const on = (bar: number) => map.chords.find((chord) => chord.bar === bar)!;

  it("shows two places on each chord, by the degree under the index finger", () => {
    expect(on(1).placements.map(({ anchor, anchorDegree }) => `${anchor} ${anchorDegree}`)).toEqual([
      "C 1",
      "G 5",
    ]);
    expect(on(2).placements.map(({ anchor, anchorDegree }) => `${anchor} ${anchorDegree}`)).toEqual([
      "F 1",
      "C 5",
    ]);
    expect(on(9).placements.map(({ anchor, anchorDegree }) => `${anchor} ${anchorDegree}`)).toEqual([
      "G 1",
      "D 5",
    ]);
  });

  it("says that the place on C serves both C7 and F7", () => {
    expect(on(1).placements.map((placement) => placement.sharedWithNext)).toEqual([true, false]);
  });

  it("names fingers, black and white keys, the slide, and what each place leaves out", () => {
    const [place] = on(1).placements;
    expect(place!.keys.map(({ name, finger, black }) => `${finger}:${name}${black ? " black" : ""}`)).toEqual(
      ["1:A", "2:C", "3:D", "4:Eb black"],
    );
    expect(place!.slides.map(({ fromName, toName, manner }) => `${fromName}-${toName} ${manner}`)).toEqual([
      "Eb-E idiomatic",
    ]);
    // C Mixolydian is C D E F G A Bb; F is its avoid note.
    expect(place!.leftOut.map(({ name, avoid }) => `${name}${avoid ? " avoid" : ""}`)).toEqual([
      "E",
      "F avoid",
      "G",
      "Bb",
    ]);
  });

  it("finds a way through the form that stays on C for C7 and F7 and moves only for G7", () => {
    const anchors = map.way.steps.map(({ span }) => {
      const step = map.way.steps[span]!;
      return map.chords[span]!.placements.find(({ id }) => id === step.placement)!.anchor;
    });
    const symbols = map.chords.map(({ symbol }) => symbol);
    symbols.forEach((symbol, k) => {
      if (symbol === "F7") expect(anchors[k]).toBe("C");
    });
    // To the G7 at the end and back to the top, a fourth or fifth each way at most; D to C is a whole step.
    expect(map.way.distance).toBeLessThanOrEqual(8);
  });

  it("keeps the anchor finger on the anchor's key", () => {
    for (const chord of map.chords) {
      for (const placement of chord.placements) {
        expect(placement.keys.find((key) => key.finger === placement.anchorFinger)!.pitch).toBe(
          placement.anchorPitch,
        );
        expect(anchorPitch({ held: heldShape(thirdAndSteps, "right"), low: placement.keys[0]!.pitch })).toBe(
          placement.anchorPitch,
        );
      }
    }
  });
});
