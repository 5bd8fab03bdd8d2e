/** Degree and harmonic role, by chord and place in the form. */
import { describe, expect, it } from "vitest";
import { chordSpans, parseChart } from "../../src/chart/index.ts";
import { degreeOf } from "../../src/harmony/degree.ts";
import {
  harmonicRoleOf,
  isBlueInKey,
  isChordToneRole,
  isGuideTone,
  soundingTable,
} from "../../src/harmony/harmonic-role.ts";
import { HARMONIC_ROLES, type HarmonicRole } from "../../src/harmony/roles.ts";
import { pitchOf } from "./notation.ts";

function firstOf(text: string) {
  const chart = parseChart(text);
  return { span: chordSpans(chart)[0]! };
}

/** Roles by semitone above the root: r 3 5 7 chord tones, t tension, b blue, a avoid, - outside. */
const LETTERS: Readonly<Record<HarmonicRole, string>> = {
  root: "r",
  third: "3",
  fifth: "5",
  seventh: "7",
  tension: "t",
  blue: "b",
  avoid: "a",
  outside: "-",
};

// Tension and avoid notes as in the chord scale tables of Nettles & Graf [memory]; blue notes [practice].
//                                                1b2 2b3 3 4#4 5b6 6b7 7
const TABLE: readonly (readonly [string, string, string])[] = [
  ["C7 in a blues: blue third and fifth, fourth avoided", "key: C\nidiom: blues\nC7 | F7", "r-tb3ab5-t7-"],
  ["C7 on its way to F: altered tensions besides those of its scale", "key: F\nC7 | F", "rttt3at5tt7-"],
  ["C7 that stays: no altered tensions, no blue notes", "key: C\nidiom: standard\nC7", "r-t-3a-5-t7-"],
  ["Imaj7: fourth avoided, ninth and thirteenth free", "key: C\nCmaj7 | Dm7", "r-t-3a-5-t-7"],
  ["IVmaj7: sharp eleventh free", "key: G\nCmaj7 | G", "r-t-3-t5-t-7"],
  ["II minor seventh: thirteenth avoided", "key: Bb\nCm7 | F7 | Bb", "r-t3-t-5-a7-"],
  ["altered: everything around the shell is tension", "key: F\nC7alt | F", "rt-t" + "3-t-t-7-"],
  ["half-diminished: flat ninth avoided", "key: Bbm\nCm7b5 | F7 | Bbm", "ra-3-t5-t-7-"],
  ["diminished seventh: a whole step above each chord tone", "key: C\nCdim7 | C", "r-t3-t5-t7-t"],
  ["sixth chord: the sixth is its seventh", "key: C\nC6 | G7", "r-t-3a-5-7-t"],
  ["suspended: the fourth stands in for the third", "key: F\nC7sus4 | F", "r-t-a3-5-t7-"],
  ["triad: the seventh of its scale is a colour", "key: C\nC | G7", "r-t-3a-5-t-t"],
  ["no chord: only the tonic triad belongs", "key: C\nN.C. | C", "r---3--5----"],
  ["no chord in a minor key", "key: Cm\nN.C. | Cm", "r--3---5----"],
  ["V7 of a minor chord: the sharp ninth is a tension outside its scale", "key: Cm\nG7 | Cm", "rt-t3at5t-7-"],
  ["a tension that the symbol names", "key: C\nidiom: standard\nC13", "r-t-3a-5-t7-"],
];

describe("harmonic role", () => {
  it.each(TABLE)("%s", (_, text, expected) => {
    const { span } = firstOf(text);
    const roles = Array.from({ length: 12 }, (_, semitones) => LETTERS[harmonicRoleOf(semitones, span)]);
    expect(roles.join("")).toBe(expected);
  });

  it("counts the tones of the chord proper as chord tones, and nothing else", () => {
    expect(HARMONIC_ROLES.filter(isChordToneRole)).toEqual(["root", "third", "fifth", "seventh"]);
  });

  it("calls third and seventh guide tones, but only where a chord sounds (Coker)", () => {
    const { span } = firstOf("key: C\nidiom: blues\nC7 | F7");
    const silent = firstOf("key: C\nN.C. | C").span;
    expect(HARMONIC_ROLES.filter((role) => isGuideTone(role, span))).toEqual(["third", "seventh"]);
    expect(HARMONIC_ROLES.filter((role) => isGuideTone(role, silent))).toEqual([]);
  });

  it("judges a scale tone on which the place is silent by the half step below it", () => {
    const { span } = firstOf("key: C\nC | G7");
    const silent = { ...span, tensions: [], avoid: [], blue: [] };
    expect(harmonicRoleOf(5, silent)).toBe("avoid");
    expect(harmonicRoleOf(9, silent)).toBe("tension");
    expect(harmonicRoleOf(0, silent)).toBe("root");
    expect(harmonicRoleOf(1, { ...silent, scaleTones: [0, 1] })).toBe("avoid");
    expect(harmonicRoleOf(1, silent)).toBe("outside");
  });

  it("does not take a named tension for a chord tone that a scale tone could rub against", () => {
    const { span } = firstOf("key: C\nC9 | F");
    expect(harmonicRoleOf(3, { ...span, tensions: [], avoid: [], blue: [], scaleTones: [3] })).toBe(
      "tension",
    );
  });

  it("tells of all twelve pitch classes by their MIDI number", () => {
    const { span } = firstOf("key: F\nidiom: blues\nF7 | Bb7");
    const table = soundingTable(span);
    expect(table).toHaveLength(12);
    expect(table[pitchOf("A4") % 12]).toEqual({
      degree: "3",
      role: "third",
      chordTone: true,
      guideTone: true,
      altered: false,
    });
    expect(table[pitchOf("Ab4") % 12]).toEqual({
      degree: "b3",
      role: "blue",
      chordTone: false,
      guideTone: false,
      altered: false,
    });
    expect(table[pitchOf("F4") % 12]).toEqual({
      degree: "1",
      role: "root",
      chordTone: true,
      guideTone: false,
      altered: false,
    });
  });
});

describe("blue in the key", () => {
  const chart = (text: string) => parseChart(text);
  it.each([
    ["the blue third, although it is the seventh of IV7", "key: F\nidiom: blues\nF7 | Bb7", "Ab4", true],
    ["the blue fifth", "key: F\nidiom: blues\nF7 | Bb7", "B4", true],
    ["the natural third is not", "key: F\nidiom: blues\nF7 | Bb7", "A4", false],
    [
      "the seventh of I7 is a chord tone of the tonic, not a blue note of the key",
      "key: F\nidiom: blues\nF7",
      "Eb4",
      false,
    ],
    ["not in the standard idiom", "key: F\nidiom: standard\nF7 | Bb7", "Ab4", false],
    ["in minor the third is the key's own", "key: Fm\nidiom: blues\nFm7 | Bbm7", "Ab4", false],
    ["in minor the flat fifth is blue", "key: Fm\nidiom: blues\nFm7 | Bbm7", "B4", true],
    ["in every octave, down to the lowest", "key: B\nidiom: blues\nB7 | E7", "D0", true],
  ])("%s", (_, text, note, expected) => {
    expect(isBlueInKey(pitchOf(note), chordSpans(chart(text))[0]!, chart(text).idiom)).toBe(expected);
  });
});

describe("degree", () => {
  // Names by the chord's own need: raised where a major third or the tone above is there, lowered in minor. [practice]
  it.each([
    ["dominant", "key: F\nC7 | F", "1 b9 9 #9 3 11 #11 5 b13 13 b7 7"],
    ["dominant of a blues", "key: C\nidiom: blues\nC7 | F7", "1 b9 9 b3 3 11 b5 5 b13 13 b7 7"],
    ["major seventh", "key: C\nCmaj7 | Dm7", "1 b9 9 b3 3 11 #11 5 #5 13 b7 7"],
    ["major triad", "key: C\nC | Dm7", "1 b9 9 b3 3 11 #11 5 #5 6 b7 7"],
    ["sixth chord", "key: C\nC6 | Dm7", "1 b9 9 b3 3 11 #11 5 #5 6 b7 7"],
    ["minor seventh", "key: Bb\nCm7 | F7", "1 b9 9 b3 3 11 b5 5 b13 13 b7 7"],
    ["minor sixth", "key: Cm\nCm6 | G7", "1 b9 9 b3 3 11 b5 5 b13 6 b7 7"],
    ["minor with major seventh", "key: Cm\nCm(maj7) | G7", "1 b9 9 b3 3 11 b5 5 b13 13 b7 7"],
    ["half-diminished", "key: Bbm\nCm7b5 | F7", "1 b9 9 b3 3 11 b5 5 b13 13 b7 7"],
    ["diminished seventh", "key: C\nCdim7 | C", "1 b9 9 b3 3 11 b5 5 b13 6 b7 7"],
    ["suspended", "key: F\nC7sus4 | F", "1 b9 9 b3 3 11 #11 5 b13 13 b7 7"],
    ["raised fifth", "key: F\nC7#5 | F", "1 b9 9 #9 3 11 #11 5 #5 13 b7 7"],
    ["no chord, major", "key: C\nN.C.", "1 b9 9 b3 3 11 #11 5 #5 6 b7 7"],
    ["no chord, minor", "key: Cm\nN.C.", "1 b9 9 b3 3 11 b5 5 b13 6 b7 7"],
  ])("over a %s chord", (_, text, expected) => {
    const { span } = firstOf(text);
    const names = Array.from({ length: 12 }, (_, semitones) => degreeOf(semitones, span));
    expect(names.join(" ")).toBe(expected);
  });

  it("takes the name that the symbol gives before any other", () => {
    const { span } = firstOf("key: C\nidiom: blues\nC7#9 | F7");
    expect(degreeOf(3, span)).toBe("#9");
    expect(harmonicRoleOf(3, span)).toBe("tension");
  });
});
