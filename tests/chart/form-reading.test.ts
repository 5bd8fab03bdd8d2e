import { describe, expect, it } from "vitest";
import { hearStretches } from "../../src/chart/comping.ts";
import { chordAt, foldedTo, type HeardBars, readForms } from "../../src/chart/form-from-notes.ts";
import { FORMS, formChart, parseChart } from "../../src/chart/index.ts";
import { type Comping, compingTake } from "./comping-take.ts";

const even: Omit<Comping, "seed"> = { voicing: "close", choruses: 1, tempo: 120, jitter: 0, early: 0 };
/** Half bars of two seconds' bars of four, as a hand plays the chart. */
function heardBars(
  chart: ReturnType<typeof parseChart>,
  how: Partial<Comping> = {},
  bars?: number,
): HeardBars {
  const { choruses } = { ...even, ...how };
  const take = compingTake(chart, { ...even, seed: 3, ...how });
  const count = (bars ?? chart.bars.length * choruses) * 2;
  return {
    heard: hearStretches(
      take.notes,
      Array.from({ length: count + 1 }, (_, i) => i),
    ),
    parts: 2,
  };
}
const read = (bars: HeardBars) => readForms(bars).map(({ form, above }) => `${form.id} ${above}`);

describe("the forms read from what is heard", () => {
  it("have the one that is played on top, in its key", () => {
    // Every form that is no vamp, on F sharp.
    for (const { id } of FORMS.filter((form) => !form.id.startsWith("vamp"))) {
      expect(read(heardBars(formChart(id, "F#")))[0]).toBe(`${id} 6`);
    }
  });

  it("leave vamps out, which any stretch of a form is", () => {
    expect(read(heardBars(formChart("vamp-one-chord", "C")))).not.toEqual([]);
    for (const name of read(heardBars(formChart("vamp-one-chord", "C")))) expect(name).not.toMatch(/^vamp/);
  });

  it("are those of which two thirds are played", () => {
    const forms = (bars: number) =>
      new Set(readForms(heardBars(formChart("blues-basic", "C"), {}, bars)).map(({ form }) => form.bars));
    expect([...forms(3)].sort()).toEqual([4]);
    expect([...forms(2)]).toEqual([]);
    expect(forms(7).has(12)).toBe(false);
    expect(forms(8).has(12)).toBe(true);
  });

  it("come in every key, the better fit first", () => {
    const readings = readForms(heardBars(formChart("two-five-one", "C")));
    const fits = readings.map(({ fit }) => fit);
    expect(fits).toEqual(fits.toSorted((a, b) => b - a));
    const majors = readings.filter(({ form }) => form.id === "two-five-one").map(({ above }) => above);
    expect(majors.toSorted((a, b) => a - b)).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11]);
  });

  it("fit as well when half of the bars are silent, and not at all in silence", () => {
    const bars = heardBars(formChart("two-five-one", "C"), { voicing: "shell" });
    const silence = hearStretches([], [0, 1])[0]!;
    const rests = { ...bars, heard: bars.heard.map((one, i) => (i % 2 === 0 ? one : silence)) };
    const best = (all: HeardBars) => readForms(all)[0]!;
    expect(best(rests)).toMatchObject({ above: 0, form: { id: "two-five-one" } });
    expect(best(rests).fit).toBeGreaterThan(0.8 * best(bars).fit);
    const nothing = readForms({ ...bars, heard: bars.heard.map(() => silence) });
    expect(nothing.every(({ fit }) => fit === 0)).toBe(true);
  });
});

describe("choruses heard together", () => {
  it("are one chorus, each place with all that is played there", () => {
    const [c, d, silence] = [[60], [62], []].map(
      (pitches) =>
        hearStretches(
          pitches.map((pitch) => ({
            ...compingTake(parseChart("C"), { ...even, seed: 1 }).notes[0]!,
            pitch,
            onset: 0,
            duration: 1,
          })),
          [0, 1],
        )[0]!,
    );
    const folded = foldedTo(2, { parts: 1, heard: [c!, silence!, d!, c!, c!] });
    expect(folded).toHaveLength(2);
    expect(folded[0]!.weight).toBeCloseTo(3 * c!.weight, 12);
    expect(folded[0]!.classes[0]).toBeCloseTo(2 / 3, 12);
    expect(folded[0]!.classes[2]).toBeCloseTo(1 / 3, 12);
    expect(folded[1]).toEqual(c);
    // Two half bars to a bar: one bar is two places.
    expect(
      foldedTo(1, { parts: 2, heard: [c!, d!, c!, d!] }).map(({ classes }) => classes.indexOf(1)),
    ).toEqual([0, 2]);
  });
});

describe("the chord of a chart at a place", () => {
  it("is the one that sounds there", () => {
    const chart = parseChart("C7 | F7 G7 | C7:3 A7:1 | N.C. D7");
    const at = (parts: number, count: number) =>
      Array.from({ length: count }, (_, stretch) => chordAt(chart, stretch, parts)?.symbol ?? null);
    expect(at(2, 8)).toEqual(["C7", "C7", "F7", "G7", "C7", "C7", null, "D7"]);
    expect(at(1, 4)).toEqual(["C7", "F7", "C7", null]);
    expect(at(4, 16).slice(8, 12)).toEqual(["C7", "C7", "C7", "A7"]);
  });
});
