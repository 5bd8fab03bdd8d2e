import { describe, expect, it } from "vitest";
import { keyName, keyOfSignature, parseKey } from "../../src/chart/index.ts";

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
