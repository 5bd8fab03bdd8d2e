import { describe, expect, it } from "vitest";
import { classOf, keyName, keyOfSignature, nameOf, parseKey } from "../../src/chart/index.ts";
import { alteration, rootNameInKey, simpleName, transposeName } from "../../src/chart/pitch-name.ts";

describe("keys", () => {
  it("are read with or without a mode, forgiving of case and glyphs", () => {
    const read = (text: string) => keyName(parseKey(text));
    expect(["C", "f", "Bb", "B♭", "F♯", " Eb ", "G major", "Gmaj", "G  major"].map(read)).toEqual([
      ...["C", "F", "Bb", "Bb", "F#", "Eb", "G", "G", "G"],
    ]);
    expect(["Cm", "c minor", "C#min", "eb minor", "A-", "B♭m"].map(read)).toEqual([
      "Cm",
      "Cm",
      "C#m",
      "Ebm",
      "Am",
      "Bbm",
    ]);
    expect(parseKey("Eb minor")).toEqual({ tonic: "Eb", tonicClass: 3, mode: "minor" });
    expect(parseKey("Cb")).toEqual({ tonic: "Cb", tonicClass: 11, mode: "major" });
  });

  it("are refused with what was expected", () => {
    for (const text of ["", "H", "Cbb", "C dorian", "C minor7", "major", "C".repeat(30)]) {
      expect(() => parseKey(text), text).toThrow(/is not a key/);
    }
    try {
      parseKey("X".repeat(50));
    } catch (error) {
      expect(error).toMatchObject({
        code: "not-a-key",
        message: `"${"X".repeat(20)}" is not a key`,
        where: null,
      });
      expect(error).toMatchObject({ todo: expect.stringContaining("C#m, G minor") });
    }
  });

  // The circle of fifths as every rudiments book prints it.
  it("follow from their signatures", () => {
    const majors = [-7, -6, -5, -4, -3, -2, -1, 0, 1, 2, 3, 4, 5, 6, 7].map((fifths) =>
      keyName(keyOfSignature(fifths, "major")),
    );
    expect(majors.join(" ")).toBe("Cb Gb Db Ab Eb Bb F C G D A E B F# C#");
    const minors = [-7, -6, -5, -4, -3, -2, -1, 0, 1, 2, 3, 4, 5, 6, 7].map((fifths) =>
      keyName(keyOfSignature(fifths, "minor")),
    );
    expect(minors.join(" ")).toBe("Abm Ebm Bbm Fm Cm Gm Dm Am Em Bm F#m C#m G#m D#m A#m");
  });
});

describe("names of pitch classes", () => {
  it("are letters with accidentals", () => {
    expect(["C", "Eb", "Cb", "B#", "Fbb", "G##"].map(classOf)).toEqual([0, 3, 11, 0, 3, 9]);
    expect(["C", "Eb", "F##"].map(alteration)).toEqual([0, -1, 2]);
    expect([0, 1, 3, 6, 10, 13, -1].map((c) => nameOf(c, "flats"))).toEqual([
      "C",
      "Db",
      "Eb",
      "Gb",
      "Bb",
      "Db",
      "B",
    ]);
    expect([0, 1, 3, 6, 10, 13, -1].map((c) => nameOf(c, "sharps"))).toEqual([
      "C",
      "C#",
      "D#",
      "F#",
      "A#",
      "C#",
      "B",
    ]);
  });

  it("lose their double accidentals, towards the side that they lean to", () => {
    expect(["Bbb", "Ebb", "Dbb", "Cbb", "F##", "C##", "B##", "Cb", "E#", "D"].map(simpleName)).toEqual([
      ...["A", "D", "C", "Bb", "G", "D", "C#", "Cb", "E#", "D"],
    ]);
  });

  it("move by letters and semitones", () => {
    expect(transposeName("F", "C", "Gb")).toBe("Cb");
    expect(transposeName("F#", "C", "Bb")).toBe("E");
    expect(transposeName("A", "C", "A#")).toBe("G");
    expect(transposeName("Bb", "F", "F#")).toBe("B");
    expect(transposeName("Eb", "Bb", "C")).toBe("F");
    expect(transposeName("B", "E", "C")).toBe("G");
  });

  it("are chosen for a root by its place in the key", () => {
    const inKey = (tonic: string) =>
      Array.from({ length: 12 }, (_, above) => rootNameInKey(classOf(tonic) + above, tonic)).join(" ");
    expect(inKey("C")).toBe("C Db D Eb E F F# G Ab A Bb B");
    expect(inKey("Eb")).toBe("Eb Fb F Gb G Ab A Bb Cb C Db D");
    expect(inKey("E")).toBe("E F F# G G# A A# B C C# D D#");
  });
});
