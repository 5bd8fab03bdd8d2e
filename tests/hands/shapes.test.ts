import { describe, expect, it } from "vitest";
import { chordSpans, parseChart } from "../../src/chart/index.ts";
import {
  BUILT_IN_SHAPES,
  checkShape,
  type HandShape,
  parseShapes,
  placementMap,
  placementMapSchema,
  shapesJson,
  shapesNamed,
} from "../../src/hands/index.ts";
import { Problem } from "../../src/take/index.ts";

const own: HandShape = {
  name: "fourths",
  fingers: [1, 2, 5],
  semitones: [0, 5, 10],
  anchorFinger: 1,
  anchorDegrees: [{ degree: "9", qualities: ["minor-seventh"] }],
};

function problem(work: () => unknown): Problem {
  try {
    work();
  } catch (error) {
    if (error instanceof Problem) return error;
    throw error;
  }
  throw new Error("nothing was refused");
}

describe("a shape is checked", () => {
  it("and passes when it is one of the built-in ones, or a hand can hold it", () => {
    for (const shape of [...BUILT_IN_SHAPES, own]) expect(() => checkShape(shape)).not.toThrow();
  });

  it.each([
    ["no name", { name: " " }, /no name/],
    ["more fingers than keys", { semitones: [0, 5] }, /3 fingers on 2 keys/],
    ["a doubled finger", { fingers: [1, 2, 2] as const }, /finger 2 is given two keys/],
    ["a doubled key", { semitones: [0, 5, 5] }, /same key/],
    ["fingers out of order", { fingers: [1, 5, 2] as const }, /do not both rise/],
    ["a span that no hand has", { semitones: [0, 5, 17] }, /17 semitones apart/],
    [
      "neighbouring fingers too far apart",
      { fingers: [2, 3] as const, semitones: [0, 6], anchorFinger: 2 as const },
      /6 semitones apart/,
    ],
    ["an anchor finger that it does not use", { anchorFinger: 3 as const }, /anchor finger 3/],
    ["keys that do not start from 0", { semitones: [1, 5, 10] }, /start from 0/],
  ])("and refused for %s", (_, change, message) => {
    const refused = problem(() => checkShape({ ...own, ...change }));
    expect(refused.code).toBe("bad-shape");
    expect(refused.message).toMatch(message);
    expect(refused.todo).not.toBe("");
  });
});

describe("shapes travel as JSON", () => {
  it("and come back as they were", () => {
    expect(parseShapes(shapesJson([...BUILT_IN_SHAPES, own]))).toEqual([...BUILT_IN_SHAPES, own]);
    expect(parseShapes(JSON.stringify([own]))).toEqual([own]);
  });

  it.each([
    ["no JSON", "{"],
    ["no list", "{}"],
    ["a shape without fingers", '[{"name":"x"}]'],
    [
      "a degree that does not exist",
      JSON.stringify([{ ...own, anchorDegrees: [{ degree: "10", qualities: [] }] }]),
    ],
    ["two of one name", JSON.stringify([own, own])],
    ["one that no hand can hold", JSON.stringify([{ ...own, semitones: [0, 5, 30] }])],
  ])("but are refused with %s", (_, text) => {
    expect(problem(() => parseShapes(text)).message.length).toBeGreaterThan(5);
  });

  it("are chosen by name, a teacher's own before a built-in one", () => {
    expect(shapesNamed(null)).toEqual(BUILT_IN_SHAPES);
    expect(shapesNamed([])).toEqual([]);
    const mine = { ...own, name: "third-and-steps" };
    expect(shapesNamed(["third-and-steps"], [mine])).toEqual([mine]);
    expect(problem(() => shapesNamed(["claw"])).code).toBe("unknown-shape");
  });
});

describe("the placement map", () => {
  const chart = parseChart("key: Bb\n| Bbmaj7 | Cm7 F7 | N.C. | Bb6 |");
  const spans = chordSpans(chart);

  it("is plain data that its schema accepts, for either hand", () => {
    for (const hand of ["right", "left"] as const) {
      const map = placementMap(chart, spans, [...BUILT_IN_SHAPES, own], { hand });
      expect(placementMapSchema.safeParse(map).error).toBeUndefined();
      expect(JSON.parse(JSON.stringify(map))).toEqual(map);
      expect(map.chords.map(({ symbol }) => symbol)).toEqual(spans.map(({ symbol }) => symbol));
    }
  });

  it("gives a teacher's own shape its place at once: fourths from the ninth of Cm7", () => {
    const map = placementMap(chart, spans, [own]);
    const cm7 = map.chords.find(({ symbol }) => symbol === "Cm7")!;
    expect(cm7.placements.map(({ keys }) => keys.map(({ name }) => name).join(" "))).toEqual(["D G C"]);
    expect(map.chords.filter(({ placements }) => placements.length > 0)).toEqual([cm7]);
  });

  it("waits on chords without a place, and sums what the hand moves round the form", () => {
    const { way } = placementMap(chart, spans, BUILT_IN_SHAPES);
    expect(way.steps.find(({ span }) => spans[span]!.chord === null)).toMatchObject({
      placement: null,
      shift: null,
    });
    const sum = way.steps.reduce((total, step) => total + Math.abs(step.shift ?? 0), 0);
    expect(way.distance).toBe(sum);
    // All moves round a closed way cancel out.
    expect(way.steps.reduce((total, step) => total + (step.shift ?? 0), 0)).toBe(0);
  });

  it("turns the fingers, not the keys, for the left hand", () => {
    const [right, left] = (["right", "left"] as const).map((hand) =>
      placementMap(chart, spans, [BUILT_IN_SHAPES[0]!], { hand }),
    );
    const keys = (map: typeof right) => map!.chords[1]!.placements[0]!.keys;
    expect(keys(left).map(({ pitchClass }) => pitchClass)).toEqual(
      keys(right).map(({ pitchClass }) => pitchClass),
    );
    expect(keys(right).map(({ finger }) => finger)).toEqual([1, 2, 3, 4]);
    expect(keys(left).map(({ finger }) => finger)).toEqual([5, 4, 3, 2]);
  });
});
