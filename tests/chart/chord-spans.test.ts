import { describe, expect, it } from "vitest";
import {
  chordSpans,
  chorusBeats,
  formChart,
  parseChart,
  quartersPerBar,
  SCALES,
  scaleNamed,
} from "../../src/chart/index.ts";
import { Problem } from "../../src/take/index.ts";

const problemOf = (run: () => unknown): Problem => {
  try {
    run();
  } catch (error) {
    if (error instanceof Problem) return error;
  }
  throw new Error("no problem was thrown");
};

describe("the spans of a chart", () => {
  it("stand in quarter-note beats from the start of the chorus, end to end", () => {
    const spans = chordSpans(parseChart("key: C\nC6 | Dm7 G7 | C6:3 A7:1"));
    expect(spans.map(({ index, bar, beat, start, beats }) => [index, bar, beat, start, beats])).toEqual([
      [0, 1, 1, 0, 4],
      [1, 2, 1, 4, 2],
      [2, 2, 3, 6, 2],
      [3, 3, 1, 8, 3],
      [4, 3, 4, 11, 1],
    ]);
    for (const meter of ["3/4", "6/8", "12/8", "5/4", "2/2"]) {
      const chart = parseChart(`key: C\nmeter: ${meter}\nC6 G7 | % | C6`);
      const all = chordSpans(chart);
      let end = 0;
      for (const { start, beats } of all) {
        expect(start).toBeCloseTo(end, 12);
        end = start + beats;
      }
      expect(end).toBe(chorusBeats(chart));
    }
  });

  it("count a bar of 6/8 as three quarters", () => {
    expect([
      quartersPerBar({ beats: 6, unit: 8 }),
      quartersPerBar({ beats: 4, unit: 4 }),
      quartersPerBar({ beats: 2, unit: 2 }),
    ]).toEqual([3, 4, 4]);
    const [, second] = chordSpans(parseChart("key: C\nmeter: 6/8\nC6 G7"));
    expect(second).toMatchObject({ beat: 4, start: 1.5, beats: 1.5 });
    expect(chorusBeats(formChart("blues-basic", "F"))).toBe(48);
  });

  it("keep the scale of the key where no chord sounds", () => {
    const [silence] = chordSpans(parseChart("key: F\nN.C. | F"));
    expect(silence).toMatchObject({
      chord: null,
      symbol: "N.C.",
      function: "none",
      numeral: "",
      scale: "Ionian",
    });
    expect([silence!.tensions, silence!.avoid, silence!.blue]).toEqual([[], [], []]);
    expect(chordSpans(parseChart("key: Fm\nN.C. | Fm"))[0]!.scale).toBe("Aeolian");
    expect(chordSpans(parseChart("key: F\nN.C.{blues} | F"))[0]).toMatchObject({
      scale: "blues",
      scaleTones: [0, 3, 5, 6, 7, 10],
    });
  });

  it("take a scale chosen in the chart, and tensions and avoid notes with it", () => {
    const [span] = chordSpans(parseChart("key: C\nG7{altered} | C"));
    expect(span).toMatchObject({ scale: "altered", scaleTones: [0, 1, 3, 4, 6, 8, 10] });
    expect(span!.tensions.map(({ degree }) => degree)).toEqual(["b9", "#9", "#11", "b13"]);
    expect(span!.avoid).toEqual([]);
  });

  it("take a scale chosen by bar and beat before the chart's", () => {
    const chart = parseChart("key: C\nDm7{Aeolian} G7 | C6");
    const chosen = chordSpans(chart, {
      scales: [
        { bar: 1, beat: 4, scale: "Half-Whole" },
        { bar: 1, beat: 1, scale: "phrygian" },
      ],
    });
    expect(chosen.map(({ scale }) => scale)).toEqual(["Phrygian", "half-whole", "Ionian"]);
    expect(chosen[0]!.avoid.map(({ degree }) => degree)).toEqual(
      ["b9", "b13", "6"].map((d) => (d === "6" ? "13" : d)),
    );
    expect(chordSpans(chart, { scales: [] }).map(({ scale }) => scale)).toEqual([
      "Aeolian",
      "Mixolydian",
      "Ionian",
    ]);
    expect(chordSpans(chart, { scales: [{ bar: 2, beat: 4.5, scale: "Lydian" }] })[2]!.scale).toBe("Lydian");
  });

  it("refuse a choice for a chord that is not there, or a scale that is none", () => {
    const chart = parseChart("key: C\nDm7 G7 | C6");
    for (const [bar, beat] of [
      [3, 1],
      [0, 1],
      [1, 5],
      [2, 0.5],
    ] as const) {
      const problem = problemOf(() => chordSpans(chart, { scales: [{ bar, beat, scale: "blues" }] }));
      expect(problem).toMatchObject({ code: "no-such-chord", where: `bar ${bar}` });
      expect(problem.message).toContain(`bar ${bar}, beat ${beat}`);
      expect(problem.todo).toMatch(/bar from 1 to 2 and a beat from 1 to 4/);
    }
    const problem = problemOf(() => chordSpans(chart, { scales: [{ bar: 1, beat: 1, scale: "klezmer" }] }));
    expect(problem.code).toBe("not-a-scale");
  });

  it("follow an idiom or a key that the user sets in place of the chart's", () => {
    const chart = parseChart("key: C\nC7 | F7 | G7 | C7");
    const standard = chordSpans({ ...chart, idiom: "standard" });
    expect(standard.map((span) => span.function)).toEqual([
      "secondary-dominant",
      "subdominant",
      "dominant",
      // The last C7 goes on into the first, which leads to F7.
      "secondary-dominant",
    ]);
    const blues = chordSpans({ ...chart, idiom: "blues" });
    expect(blues.map((span) => span.function)).toEqual([
      "blues-one",
      "blues-four",
      "blues-five",
      "blues-one",
    ]);
    const inF = chordSpans({
      ...chart,
      idiom: "standard",
      key: { tonic: "F", tonicClass: 5, mode: "major" },
    });
    expect(inF.map((span) => span.function)).toEqual(["dominant", "tonic", "secondary-dominant", "dominant"]);
  });
});

describe("scales by name", () => {
  it("are forgiving of case, spaces and flats as glyphs", () => {
    expect(scaleNamed(" lydian B7 ").name).toBe("Lydian b7");
    expect(scaleNamed("Mixolydian ♭9 ♭13").tones).toEqual([0, 1, 4, 5, 7, 8, 10]);
    for (const { name, tones } of SCALES) expect(scaleNamed(name)).toEqual({ name, tones });
  });
  it("are refused with the list of those that are known", () => {
    const problem = problemOf(() => scaleNamed("x".repeat(100)));
    expect(problem).toMatchObject({
      code: "not-a-scale",
      where: null,
      message: `"${"x".repeat(60)}" is not a scale`,
    });
    for (const { name } of SCALES) expect(problem.todo).toContain(name);
  });
});
