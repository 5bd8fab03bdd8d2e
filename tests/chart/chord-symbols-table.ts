/**
 * The usual spellings of chord symbols without their root, with what they mean: degrees from the root upwards as a
 * stack (third, fifth, seventh, tensions), family, and the house style.
 *
 * The meanings are those of the chord-symbol handbooks (Brandt & Roemer, Standardized Chord Symbol Notation, 1976
 * [memory]) and, where the standard has the kind, of MusicXML 4.0 `kind-value`; rows that rest on use alone are
 * marked [practice].
 */
import type { Quality } from "../../src/chart/index.ts";

export interface Spelling {
  readonly written: readonly string[];
  readonly house: string;
  readonly degrees: string;
  readonly quality: Quality;
}

export const SPELLINGS: readonly Spelling[] = [
  { written: ["", "maj", "M"], house: "", degrees: "1 3 5", quality: "major" },
  { written: ["6", "maj6", "M6", "add6"], house: "6", degrees: "1 3 5 6", quality: "sixth" },
  { written: ["69", "6/9", "6(9)", "6add9"], house: "69", degrees: "1 3 5 6 9", quality: "sixth" },
  {
    written: ["maj7", "M7", "ma7", "Ma7", "Maj7", "MA7", "Δ", "Δ7", "^7", "^", "j7", "7M", "△7", "(maj7)"],
    house: "maj7",
    degrees: "1 3 5 7",
    quality: "major-seventh",
  },
  {
    written: ["maj9", "M9", "Δ9", "maj7(9)", "maj7add9"],
    house: "maj9",
    degrees: "1 3 5 7 9",
    quality: "major-seventh",
  },
  {
    written: ["maj13", "maj9(13)", "Δ13"],
    house: "maj13",
    degrees: "1 3 5 7 9 13",
    quality: "major-seventh",
  },
  {
    written: ["maj7#11", "Δ7(#11)", "M7+11", "maj7♯11"],
    house: "maj7(#11)",
    degrees: "1 3 5 7 #11",
    quality: "major-seventh",
  },
  { written: ["maj9#11"], house: "maj9(#11)", degrees: "1 3 5 7 9 #11", quality: "major-seventh" },
  { written: ["maj7b5", "Δ-5"], house: "maj7(b5)", degrees: "1 3 b5 7", quality: "major-seventh" },
  {
    written: ["maj7#5", "maj7+5", "+maj7", "augmaj7", "+M7", "Δ#5"],
    house: "maj7(#5)",
    degrees: "1 3 #5 7",
    quality: "augmented-major",
  },
  { written: ["7"], house: "7", degrees: "1 3 5 b7", quality: "dominant" },
  { written: ["9", "7(9)", "7add9", "7/9"], house: "9", degrees: "1 3 5 b7 9", quality: "dominant" },
  {
    written: ["13", "9(13)", "7(9,13)", "7(9, 13)"],
    house: "13",
    degrees: "1 3 5 b7 9 13",
    quality: "dominant",
  },
  { written: ["7(13)", "7add13", "7add6"], house: "7(13)", degrees: "1 3 5 b7 13", quality: "dominant" },
  {
    written: ["7b9", "7-9", "7(b9)", "7♭9", "7addb9", "7b2"],
    house: "7(b9)",
    degrees: "1 3 5 b7 b9",
    quality: "dominant",
  },
  { written: ["7#9", "7+9", "7(♯9)", "7#2"], house: "7(#9)", degrees: "1 3 5 b7 #9", quality: "dominant" },
  {
    written: ["7#11", "7+11", "7(#11)", "7add#11", "7#4"],
    house: "7(#11)",
    degrees: "1 3 5 b7 #11",
    quality: "dominant",
  },
  {
    written: ["7(b9,#11)", "7b9#11", "7b9/#11", "7(b9)(#11)"],
    house: "7(b9,#11)",
    degrees: "1 3 5 b7 b9 #11",
    quality: "dominant",
  },
  { written: ["7b9#9", "7#9b9"], house: "7(b9,#9)", degrees: "1 3 5 b7 b9 #9", quality: "dominant" },
  {
    written: ["7#5#9", "7(#9,#5)", "+7#9", "aug7(#9)"],
    house: "7(#5,#9)",
    degrees: "1 3 #5 b7 #9",
    quality: "dominant",
  },
  { written: ["7b13", "7(b13)", "7b6"], house: "7(b13)", degrees: "1 3 5 b7 b13", quality: "dominant" },
  { written: ["7b9b13", "7(b9,b13)"], house: "7(b9,b13)", degrees: "1 3 5 b7 b9 b13", quality: "dominant" },
  {
    written: ["13b9", "13(b9)", "7b9(13)"],
    house: "7(b9,13)",
    degrees: "1 3 5 b7 b9 13",
    quality: "dominant",
  },
  { written: ["9#11", "9(#11)"], house: "9(#11)", degrees: "1 3 5 b7 9 #11", quality: "dominant" },
  { written: ["13#11", "9#11(13)"], house: "13(#11)", degrees: "1 3 5 b7 9 #11 13", quality: "dominant" },
  { written: ["7b5", "7-5", "7(b5)"], house: "7(b5)", degrees: "1 3 b5 b7", quality: "dominant" },
  {
    written: ["7#5", "7+5", "+7", "aug7", "7+", "7aug"],
    house: "7(#5)",
    degrees: "1 3 #5 b7",
    quality: "dominant",
  },
  { written: ["9#5", "+9"], house: "9(#5)", degrees: "1 3 #5 b7 9", quality: "dominant" },
  { written: ["7b5b9", "7(b9,b5)"], house: "7(b5,b9)", degrees: "1 3 b5 b7 b9", quality: "dominant" },
  { written: ["7b5#5"], house: "7(b5,#5)", degrees: "1 3 b5 #5 b7", quality: "dominant" },
  {
    written: ["7alt", "alt", "7(alt)", "7altered"],
    house: "7alt",
    degrees: "1 3 b7 b9 #9 #11 b13",
    quality: "dominant",
  },
  { written: ["7no5", "7(omit5)", "7(no 5th)"], house: "7(no5)", degrees: "1 3 b7", quality: "dominant" },
  { written: ["7no3"], house: "7(no3)", degrees: "1 5 b7", quality: "dominant" },
  { written: ["aug", "+", "(#5)"], house: "aug", degrees: "1 3 #5", quality: "augmented" },
  { written: ["(b5)"], house: "(b5)", degrees: "1 3 b5", quality: "major" },
  { written: ["sus", "sus4", "Sus4", "(sus4)"], house: "sus4", degrees: "1 11 5", quality: "suspended" },
  { written: ["sus2"], house: "sus2", degrees: "1 9 5", quality: "suspended" },
  {
    written: ["sus2sus4", "sus4sus2", "sus4(add9)"],
    house: "sus4(add9)",
    degrees: "1 11 5 9",
    quality: "suspended",
  },
  { written: ["7sus", "7sus4", "7(sus4)"], house: "7sus4", degrees: "1 11 5 b7", quality: "suspended" },
  { written: ["7sus2"], house: "7sus2", degrees: "1 9 5 b7", quality: "suspended" },
  // The third of a dominant eleventh is left out in practice: Levine, The Jazz Piano Book, 1989 [memory].
  {
    written: ["9sus4", "9sus", "11", "7sus4(9)"],
    house: "9sus4",
    degrees: "1 11 5 b7 9",
    quality: "suspended",
  },
  {
    written: ["13sus4", "13sus", "11(13)"],
    house: "13sus4",
    degrees: "1 11 5 b7 9 13",
    quality: "suspended",
  },
  {
    written: ["7sus4b9", "7sus(b9)", "7b9sus4", "11b9"],
    house: "7sus4(b9)",
    degrees: "1 11 5 b7 b9",
    quality: "suspended",
  },
  { written: ["add9", "add2", "2", "(add9)", "/9"], house: "add9", degrees: "1 3 5 9", quality: "major" },
  { written: ["add#11", "add#4"], house: "(add#11)", degrees: "1 3 5 #11", quality: "major" },
  { written: ["add4", "add11"], house: "add11", degrees: "1 3 5 11", quality: "major" },
  { written: ["5"], house: "5", degrees: "1 5", quality: "power" },
  { written: ["m", "-", "mi", "min", "Min", "MI", "−"], house: "m", degrees: "1 b3 5", quality: "minor" },
  { written: ["m6", "-6", "min6", "madd6"], house: "m6", degrees: "1 b3 5 6", quality: "minor-sixth" },
  { written: ["m69", "m6/9", "-6/9"], house: "m69", degrees: "1 b3 5 6 9", quality: "minor-sixth" },
  {
    written: ["m7", "-7", "min7", "mi7", "Min7"],
    house: "m7",
    degrees: "1 b3 5 b7",
    quality: "minor-seventh",
  },
  { written: ["m9", "-9", "min9", "m7(9)"], house: "m9", degrees: "1 b3 5 b7 9", quality: "minor-seventh" },
  {
    written: ["m11", "-11", "m9(11)", "m7(9,11)"],
    house: "m11",
    degrees: "1 b3 5 b7 9 11",
    quality: "minor-seventh",
  },
  { written: ["m13", "m11(13)"], house: "m13", degrees: "1 b3 5 b7 9 11 13", quality: "minor-seventh" },
  { written: ["m9(13)"], house: "m9(13)", degrees: "1 b3 5 b7 9 13", quality: "minor-seventh" },
  {
    written: ["m7(11)", "m7add11", "m7add4"],
    house: "m7(11)",
    degrees: "1 b3 5 b7 11",
    quality: "minor-seventh",
  },
  { written: ["m7#5", "-7+5"], house: "m7(#5)", degrees: "1 b3 #5 b7", quality: "minor-seventh" },
  { written: ["mb6", "-b6"], house: "m(addb13)", degrees: "1 b3 5 b13", quality: "minor" },
  { written: ["madd9", "m(add9)", "-add9"], house: "m(add9)", degrees: "1 b3 5 9", quality: "minor" },
  {
    written: ["m(maj7)", "-Δ7", "mmaj7", "mM7", "m^7", "-Δ", "min(maj7)", "m(Maj7)", "m7M"],
    house: "m(maj7)",
    degrees: "1 b3 5 7",
    quality: "minor-major",
  },
  { written: ["m(maj9)", "mM9", "-Δ9"], house: "m(maj9)", degrees: "1 b3 5 7 9", quality: "minor-major" },
  {
    written: ["m7b5", "ø", "ø7", "Ø", "Ø7", "-7b5", "m7(b5)", "min7b5", "-7-5", "m7♭5"],
    house: "m7b5",
    degrees: "1 b3 b5 b7",
    quality: "half-diminished",
  },
  { written: ["m9b5", "ø9", "ø7(9)"], house: "m7b5(9)", degrees: "1 b3 b5 b7 9", quality: "half-diminished" },
  { written: ["m11b5", "ø11"], house: "m7b5(9,11)", degrees: "1 b3 b5 b7 9 11", quality: "half-diminished" },
  {
    written: ["dim", "o", "°", "Dim", "m(b5)", "º"],
    house: "dim",
    degrees: "1 b3 b5",
    quality: "diminished",
  },
  {
    written: ["dim7", "o7", "°7", "m6(b5)"],
    house: "dim7",
    degrees: "1 b3 b5 6",
    quality: "diminished-seventh",
  },
  {
    written: ["dim(maj7)", "o(maj7)", "°M7", "dimΔ7"],
    house: "dim(maj7)",
    degrees: "1 b3 b5 7",
    quality: "diminished-seventh",
  },
];
