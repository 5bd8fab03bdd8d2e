import { describe, expect, it } from "vitest";
import { beatInWords, degreeInWords, foreignInWords } from "../../src/harmony/words.ts";

describe("words", () => {
  it.each([
    [1, [4, 4], "beat 1"],
    [3, [4, 4], "beat 3"],
    [2.5, [4, 4], "the and of 2"],
    [4 + 1 / 3, [4, 4], "the second triplet of 4"],
    [4 + 2 / 3, [4, 4], "the last triplet of 4"],
    [1.25, [4, 4], "the second sixteenth of 1"],
    [1.75, [4, 4], "the last sixteenth of 1"],
    [2 + 1 / 6, [4, 4], "the second sextuplet of 2"],
    [2 + 5 / 6, [4, 4], "the last sextuplet of 2"],
    [3.125, [4, 4], "the second thirty-second of 3"],
    [3.375, [4, 4], "the fourth thirty-second of 3"],
    [3.6, [4, 4], "the fourth quintuplet of 3"],
    [1.08, [4, 4], "just after beat 1"],
    [1.93, [4, 4], "late in beat 1"],
    [2.9999999, [4, 4], "beat 3"],
    [2.5, [3, 4], "the and of 2"],
    [2.5, [2, 2], "the and of 2"],
    [1, [6, 8], "main beat 1"],
    [4, [6, 8], "main beat 2"],
    [5, [6, 8], "eighth 5"],
    [5.5, [6, 8], "the and of eighth 5"],
    [3.3, [6, 8], "just after eighth 3"],
    [10, [12, 8], "main beat 4"],
  ] as const)("says beat %s in %s as %s", (beat, [beats, unit], words) => {
    expect(beatInWords(beat, { beats, unit })).toBe(words);
  });

  it("says nothing of a beat where there is none", () => {
    expect(beatInWords(null, { beats: 4, unit: 4 })).toBe("");
  });

  it.each([
    ["b3", "blue", "dominant", "blue third"],
    ["b5", "blue", "dominant", "blue fifth"],
    ["b3", "third", "minor-seventh", "third"],
    ["b3", "outside", "major-seventh", "minor third"],
    ["11", "avoid", "dominant", "fourth"],
    ["11", "tension", "minor-seventh", "eleventh"],
    ["11", "third", "suspended", "fourth"],
    ["9", "third", "suspended", "second"],
    ["9", "tension", "dominant", "ninth"],
    ["b5", "fifth", "half-diminished", "flat fifth"],
    ["6", "seventh", "diminished-seventh", "diminished seventh"],
    ["b3", "third", "diminished-seventh", "third"],
    ["b5", "fifth", "diminished-seventh", "flat fifth"],
    ["6", "seventh", "sixth", "sixth"],
    ["b7", "seventh", "dominant", "seventh"],
    ["7", "seventh", "major-seventh", "major seventh"],
    ["b13", "avoid", "minor-seventh", "flat thirteenth"],
    ["#11", "tension", null, "sharp eleventh"],
  ] as const)("says degree %s as a %s of a %s chord: %s", (degree, role, quality, words) => {
    expect(degreeInWords(degree, role, quality)).toBe(words);
  });

  // By spelling: a sharp and its enharmonic flat are two different notes of the trade. What no degree is called has no name.
  it.each([
    ["C#4", "C", null],
    ["Db4", "C", "flat ninth"],
    ["D#4", "C", "sharp ninth"],
    ["Eb4", "C", "minor third"],
    ["E4", "Cb", null],
    ["E4", "C", "major third"],
    ["F4", "C", "fourth"],
    ["Fb4", "C", null],
    ["F#4", "C", "sharp eleventh"],
    ["Gb4", "C", "flat fifth"],
    ["G4", "C", "perfect fifth"],
    ["G#4", "C", "raised fifth"],
    ["Ab4", "C", "flat thirteenth"],
    ["A4", "C", "sixth"],
    ["A#4", "C", null],
    ["Bb4", "C", "minor seventh"],
    ["B4", "C", "major seventh"],
    ["Cb5", "C", null],
    ["D4", "C", "ninth"],
    ["Bb3", "F#", null],
    ["B#4", "C", null],
  ] as const)("says %s against the root %s as a %s", (name, root, words) => {
    expect(foreignInWords(name, root)).toBe(words);
  });
});
