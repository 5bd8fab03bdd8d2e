import { describe, expect, it } from "vitest";
import {
  chartText,
  chordSpans,
  chorusBeats,
  FORMS,
  formChart,
  keyName,
  parseChart,
} from "../../src/chart/index.ts";

const symbols = (form: string, key: string) =>
  formChart(form, key)
    .bars.map((bar) => bar.chords.map((chord) => chord.symbol).join(" "))
    .join(" | ");

describe("the trade's forms", () => {
  // The forms as method books print them. [practice]
  const PRINTED: readonly (readonly [form: string, key: string, chords: string])[] = [
    ["blues-basic", "F", "F7 | F7 | F7 | F7 | Bb7 | Bb7 | F7 | F7 | C7 | Bb7 | F7 | F7"],
    ["blues-quick-change", "G", "G7 | C7 | G7 | G7 | C7 | C7 | G7 | G7 | D7 | C7 | G7 | D7"],
    ["blues-two-five", "Bb", "Bb7 | Eb7 | Bb7 | Bb7 | Eb7 | Eb7 | Bb7 | G7 | Cm7 | F7 | Bb7 G7 | Cm7 F7"],
    ["blues-minor", "A", "Am7 | Am7 | Am7 | Am7 | Dm7 | Dm7 | Am7 | Am7 | F7 | E7 | Am7 | Bm7b5 E7"],
    ["blues-eight-bar", "E", "E7 | B7 | A7 | A7 | E7 | B7 | E7 | B7"],
    [
      "blues-sixteen-bar",
      "C",
      "C7 | C7 | C7 | C7 | C7 | C7 | C7 | C7 | F7 | F7 | C7 | C7 | G7 | F7 | C7 | C7",
    ],
    ["two-five-one", "Eb", "Fm7 | Bb7 | Ebmaj7 | Ebmaj7"],
    ["two-five-one-minor", "D", "Em7b5 | A7(b9) | Dm6 | Dm6"],
    ["vamp-one-chord", "D", "D7 | D7 | D7 | D7 | D7 | D7 | D7 | D7"],
    ["vamp-one-chord", "Dm", "Dm7 | Dm7 | Dm7 | Dm7 | Dm7 | Dm7 | Dm7 | Dm7"],
    ["vamp-two-chord", "A", "A7 | A7 | D7 | D7 | A7 | A7 | D7 | D7"],
    ["vamp-two-chord", "Am", "Am7 | Am7 | D7 | D7 | Am7 | Am7 | D7 | D7"],
  ];
  it.each(PRINTED)("%s in %s", (form, key, chords) => {
    expect(symbols(form, key)).toBe(chords);
  });

  it("the 32-bar AABA has a bridge of dominants round the circle of fifths", () => {
    const bars = symbols("aaba-dominant-bridge", "Bb").split(" | ");
    expect(bars.slice(16, 24)).toEqual(["D7", "D7", "G7", "G7", "C7", "C7", "F7", "F7"]);
    expect(bars.slice(0, 8)).toEqual([
      "Bb6 G7",
      "Cm7 F7",
      "Bb6 G7",
      "Cm7 F7",
      "Bb7",
      "Eb7 Edim7",
      "Bb6/F G7",
      "Cm7 F7",
    ]);
    expect(bars.slice(8, 14)).toEqual(bars.slice(0, 6));
    expect(bars.slice(14, 16)).toEqual(["Cm7 F7", "Bb6"]);
    expect(bars.slice(24)).toEqual(bars.slice(8, 16));
  });

  it("have the length that they say, in every key of their mode", () => {
    for (const form of FORMS) {
      for (const tonic of ["C", "Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"]) {
        const chart = formChart(form.id, tonic);
        expect(chart.bars, `${form.id} in ${tonic}`).toHaveLength(form.bars);
        expect([chart.key.mode, chart.idiom, chart.name]).toEqual([form.mode, form.idiom, form.name]);
        expect(chorusBeats(chart)).toBe(form.bars * 4);
        expect(parseChart(chartText(chart))).toEqual(chart);
        expect(chordSpans(chart).map(({ function: name }) => name)).not.toContain("none");
      }
    }
  });

  it("are found by ids forgiving of case, in keys forgiving of case", () => {
    expect(formChart(" Blues-BASIC ", "bb").key.tonic).toBe("Bb");
    expect(keyName(formChart("blues-minor", "c").key)).toBe("Cm");
    expect(keyName(formChart("blues-minor", "Cm").key)).toBe("Cm");
    expect(formChart("vamp-one-chord", "Gm").idiom).toBe("standard");
    expect(formChart("blues-minor", "Gm").idiom).toBe("blues");
  });

  it("are refused with what there is instead", () => {
    expect(() => formChart("rhythm-and-blues", "C")).toThrow(/"rhythm-and-blues" is not a form/);
    expect(() => formChart("blues-basic", "H")).toThrow(/"H" is not a key/);
    const problem = (form: string, key: string) => {
      try {
        formChart(form, key);
      } catch (error) {
        return error;
      }
    };
    expect(problem("x".repeat(100), "C")).toMatchObject({
      code: "no-such-form",
      message: `"${"x".repeat(60)}" is not a form`,
      todo: expect.stringMatching(/blues-basic, blues-quick-change,.*vamp-two-chord\.$/),
    });
    expect(problem("blues-basic", "Gm")).toMatchObject({
      code: "another-mode",
      message: 'The form "blues-basic" is in a major key',
      todo: 'Write the key as "G", or choose a minor form: blues-minor, two-five-one-minor, vamp-one-chord, vamp-two-chord.',
    });
  });

  it("have different ids and names", () => {
    expect(new Set(FORMS.map(({ id }) => id)).size).toBe(FORMS.length);
    expect(new Set(FORMS.map(({ name }) => name)).size).toBe(FORMS.length);
    for (const { id } of FORMS) expect(id).toMatch(/^[a-z]+(-[a-z]+)*$/);
  });
});
