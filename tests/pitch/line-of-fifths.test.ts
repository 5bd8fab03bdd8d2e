import { describe, expect, it } from "vitest";
import { parseKey } from "../../src/chart/index.ts";
import { accidentalOf, fifthsOf, nearestTo, pitchNameAt, signatureOf } from "../../src/pitch/index.ts";
import { pitchOf } from "../harmony/notation.ts";

describe("the line of fifths", () => {
  // Written out by hand: each name is a fifth above the one before.
  const line =
    "Fbb Cbb Gbb Dbb Abb Ebb Bbb Fb Cb Gb Db Ab Eb Bb F C G D A E B F# C# G# D# A# E# B# F## C## G##".split(
      " ",
    );

  it("gives every name its place, C at 0", () => {
    expect(line.map(fifthsOf)).toEqual(line.map((_, i) => i - 15));
  });

  it("passes over an octave", () => {
    expect(["Eb4", "F#-1", "C5"].map(fifthsOf)).toEqual([-3, 6, 0]);
  });

  it("counts accidentals", () => {
    expect([-9, -8, -2, -1, 5, 6, 12, 13].map(accidentalOf)).toEqual([-2, -1, -1, 0, 0, 1, 1, 2]);
  });

  it.each(["C4", "Cb4", "B#3", "Bb-1", "F##5", "Ebb4", "G9", "E#4", "Fb4"])("names %s as it was", (name) => {
    expect(pitchNameAt(pitchOf(name), fifthsOf(name.replace(/-?\d/, "")))).toBe(name);
  });

  it("finds the nearest name to a centre", () => {
    expect(nearestTo(3, 0)).toBe(fifthsOf("Eb"));
    expect(nearestTo(3, 5)).toBe(fifthsOf("D#"));
    expect(nearestTo(6, 0)).toBe(fifthsOf("Gb"));
    expect(nearestTo(0, 20)).toBe(fifthsOf("B#") + 12);
    expect(nearestTo(11, -6)).toBe(fifthsOf("Cb"));
  });

  it("knows the signatures of the keys", () => {
    const signatures = { C: 0, F: -1, Bb: -2, Eb: -3, G: 1, D: 2, Am: 0, Cm: -3, "F#m": 3, Gb: -6, "G#m": 5 };
    for (const [key, fifths] of Object.entries(signatures)) {
      expect([key, signatureOf(parseKey(key))]).toEqual([key, fifths]);
    }
  });
});
