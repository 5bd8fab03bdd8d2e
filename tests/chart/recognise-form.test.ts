import { describe, expect, it } from "vitest";
import { chartText, formChart, keyName, parseChart, recogniseForm } from "../../src/chart/index.ts";

describe("recognising a form", () => {
  const described = (text: string) => recogniseForm(parseChart(text))?.description ?? null;
  it("forgives ninths, thirteenths and a substitution", () => {
    expect(
      described("F9 | Bb13 | F7 | Cm7 F7 | Bb9 | Bdim7 | F7 | D7alt | Gm9 | C7b9 | F7 D7 | Gm7 C7"),
    ).toBe("12-bar blues with II-V turnaround in F");
    expect(described("Am7 | Am7 | Am7 | Am7 | Dm7 | Dm7 | Am7 | Am7 | F7 | E7 | Am7 | E7")).toBe(
      "12-bar minor blues in Am",
    );
  });
  it("sees a form written out twice, and a form in another meter", () => {
    expect(described("|: G7 | C7 | G7 | G7 | C7 | C7 | G7 | G7 | D7 | C7 | G7 | D7 :|")).toBe(
      "12-bar blues with quick change in G",
    );
    expect(described("meter: 12/8\n|: G7 | D7 | C7 | C7 | G7 | D7 | G7 | D7 :|")).toBe("8-bar blues in G");
    expect(described("meter: 3/4\nDm7 | G7 | Cmaj7 | C6")).toBe("II-V-I in C");
  });
  it("sees vamps of any length", () => {
    expect(described("Eb7 | Eb9")).toBe("One-chord vamp in Eb");
    expect(described("Dm7 | Dm7 | G7 | G7")).toBe("Two-chord vamp in Dm");
    expect(described("Dm7")).toBe("One-chord vamp in Dm");
  });
  it("does not see one where there is none", () => {
    expect(described("C | F | G | C")).toBeNull();
    expect(described("Cmaj7 | Am7 | Dm7 | G7 | Em7 | A7 | Dm7 | G7")).toBeNull();
    expect(described("F7 | F7 | F7 | F7 | Bb7 | Bb7 | F7 | F7 | C7 | Bb7 | F7")).toBeNull();
    expect(described("N.C. | N.C.")).toBeNull();
  });
  it("names the key as the chart spells it", () => {
    expect(described("C#m7 | C#m7 | F#7 | F#7")).toBe("Two-chord vamp in C#m");
    expect(recogniseForm(parseChart("key: Cb\nDbm7 | Gb7 | Cbmaj7 | Cb6"))?.key.tonic).toBe("Cb");
    expect(recogniseForm(parseChart("key: F\nF#m7 | B7 | Emaj7 | E6"))?.key).toMatchObject({
      tonic: "E",
      mode: "major",
    });
  });
  it("counts the share of time in which chart and form agree", () => {
    const one = recogniseForm(parseChart("F7 | F7 | F7 | F7 | Bb7 | Bb7 | F7 | F7 | C7 | Bb7 | F7 | F7 C7"))!;
    expect(one.form).toBe("blues-basic");
    expect(one.likeness).toBeCloseTo(11.5 / 12, 12);
  });

  it("names the key by its own spelling before that of a chord, and keeps to the form's mode", () => {
    // The tonic is written F sharp by mistake in a chart that says it is in G flat.
    expect(described("key: Gb\nAbm7 | Db7 | F#maj7 | Gb6")).toBe("II-V-I in Gb");
    expect(described("key: F\nAbm7 | Db7 | Gbmaj7 | F#6")).toBe("II-V-I in Gb");
    expect(described("key: F\nN.C.:1 Abm7:3 | Db7 | Gbmaj7 | Gb6")).toBe("II-V-I in Gb");
    expect(described("key: C\nDm7b5 | G7 | Cm6 | Cm6")).toBe("Minor II-V-I in Cm");
    // Rhythm changes on III for I throughout: no chord is on the tonic, and the key is named as it is signed.
    const sections = "Fm7 Bb7 | Ebm7 Ab7 | Fm7 Bb7 | Ebm7 Ab7 | Db7 | Gb7 Gdim7 | Fm7 Bb7 | Ebm7 Ab7";
    const bridge = "F7 | F7 | Bb7 | Bb7 | Eb7 | Eb7 | Ab7 | Ab7";
    expect(described(`key: F\n${sections} | ${sections} | ${bridge} | ${sections}`)).toMatch(/ in Db$/);
  });

  describe("tells the families of chords apart", () => {
    const likeness = (form: string, key: string, from: string, to: string) => {
      const text = chartText(formChart(form, key)).replaceAll(` ${from} `, ` ${to} `);
      const match = recogniseForm(parseChart(text));
      return match === null ? null : match.likeness;
    };
    // A bar of the four of a minor II-V-I.
    it.each([
      ["Dm7b5", "Dm7b5", 1],
      ["Dm7b5", "Dm7", 3 / 4],
      ["Dm7b5", "Ddim7", 3 / 4],
      ["Dm7b5", "D7", 3 / 4],
      ["Dm7b5", "Dmaj7", 3 / 4],
      ["G7(b9)", "G13", 1],
      ["G7(b9)", "G7sus4", 1],
      ["G7(b9)", "G", 3 / 4],
      ["G7(b9)", "Gm7", 3 / 4],
    ] as const)("%s played as %s in C minor", (from, to, expected) => {
      expect(likeness("two-five-one-minor", "Cm", from, to)).toBe(expected);
    });

    // The sharp fourth diminished stands for half a bar in each of three sections of the 32.
    it.each([
      ["Edim7", 1],
      ["Edim", 1],
      ["Em7b5", 1 - 1.5 / 32],
      ["Em7", 1 - 1.5 / 32],
      ["E6", 1 - 1.5 / 32],
    ] as const)("the diminished chord of a bridge of dominants played as %s", (to, expected) => {
      expect(likeness("aaba-dominant-bridge", "Bb", "Edim7", to)).toBeCloseTo(expected, 12);
    });
  });

  it("counts by time inside a bar, in the chart's own meter", () => {
    const minor = "Am7 | Am7 | Am7 | Am7 | Dm7 | Dm7 | Am7 | Am7 | F7 | E7 | Am7";
    const ending = (last: string) => recogniseForm(parseChart(`meter: 12/8\n${minor} | ${last}`))!.likeness;
    // The form ends Bm7b5 E7, half a bar each.
    expect(ending("Bm7b5:6 E7:6")).toBe(1);
    expect(ending("E7:6 Bm7b5:6")).toBeCloseTo(11 / 12, 12);
    expect(ending("Bm7b5:3 E7:9")).toBeCloseTo(11.75 / 12, 12);
    expect(ending("Bm7b5:9 E7:3")).toBeCloseTo(11.75 / 12, 12);
    expect(ending("E7:3 F7:9")).toBeCloseTo(11 / 12, 12);
    expect(ending("E7:12")).toBeCloseTo(11.5 / 12, 12);
  });

  it("does not take silence for a chord", () => {
    const rest = recogniseForm(parseChart("F7 | F7 | F7 | F7 | Bb7 | Bb7 | F7 | F7 | C7 | Bb7 | F7 | N.C."))!;
    expect(rest).toMatchObject({ form: "blues-basic", key: { tonic: "F" } });
    expect(rest.likeness).toBeCloseTo(11 / 12, 12);
    expect(recogniseForm(parseChart("key: F\nN.C.:1 F7:3 | F7 | F7 | F7"))?.key.tonic).toBe("F");
  });

  it("takes the form that is most alike, at seven bars in ten and above", () => {
    // Seven bars of ten: a one-chord vamp comes round after every bar.
    expect(described("C7 | C7 | C7 | C7 | C7 | C7 | C7 | F#m7 | Abmaj7 | Dm7b5")).toBe("One-chord vamp in C");
    expect(described("C7 | C7 | C7 | C7 | C7 | C7 | Em7 | F#m7 | Abmaj7 | Dm7b5")).toBeNull();
    expect(keyName(recogniseForm(parseChart("Bm7 | Bm7 | E7 | E7"))!.key)).toBe("Bm");
  });
});
