/**
 * Each harmonic role by example: what has it, and what only looks as if it had. Tensions and avoid notes: Nettles &
 * Graf, The Chord Scale Theory [memory]; stand-ins of third and seventh: Levine [memory]; blue notes [practice].
 */
import { describe, expect, it } from "vitest";
import type { HarmonicRole } from "../../src/harmony/index.ts";
import { asked, type Setting } from "./notation.ts";

const BLUES: Setting = { idiom: "blues" };

interface Example {
  readonly why: string;
  readonly text: string;
  readonly setting?: Setting;
}

interface Rule {
  readonly role: HarmonicRole;
  readonly is: readonly Example[];
  readonly isNot: readonly (Example & { readonly role: HarmonicRole })[];
}

const RULES: readonly Rule[] = [
  {
    role: "root",
    is: [
      { why: "C of C7", text: "C7 // *C4@1" },
      { why: "the root is the chord's, not the bass note", text: "C7/E // *C4@1" },
      { why: "the tonic where no chord sounds", text: "N.C. // *C4@1" },
    ],
    isNot: [
      { why: "the bass of an inversion", text: "C7/E // *E4@1", role: "third" },
      { why: "the key's tonic over another chord", text: "C | Am7 // | *C4@1", role: "third" },
      { why: "the root of the chord to come", text: "G7 | C // *C4@4", role: "avoid" },
    ],
  },
  {
    role: "third",
    is: [
      { why: "major", text: "C7 // *E4@1" },
      { why: "minor", text: "Cm7 // *Eb4@1", setting: { key: "Bb" } },
      { why: "the fourth stands in on a suspended chord", text: "G7sus4 // *C4@1" },
    ],
    isNot: [
      {
        why: "the minor third over a dominant in a blues",
        text: "C7 | F7 // *Eb4@1",
        setting: BLUES,
        role: "blue",
      },
      {
        why: "the major third over a minor chord",
        text: "Cm7 // *E4@1",
        setting: { key: "Bb" },
        role: "outside",
      },
      { why: "the third that a suspension keeps out", text: "G7sus4 // *B4@1", role: "avoid" },
    ],
  },
  {
    role: "fifth",
    is: [
      { why: "perfect", text: "C7 // *G4@1" },
      { why: "flat, where the chord has it", text: "Bm7b5 // *F4@1", setting: { key: "Am" } },
      { why: "raised, where the chord has it", text: "Caug // *G#4@1" },
    ],
    isNot: [
      {
        why: "the perfect fifth over a half-diminished chord",
        text: "Bm7b5 // *F#4@1",
        setting: { key: "Am" },
        role: "outside",
      },
      { why: "the flat fifth of a blues", text: "C7 | F7 // *Gb4@1", setting: BLUES, role: "blue" },
      { why: "the fifth of the key over II", text: "Dm7 | G7 // *G4@1", role: "tension" },
    ],
  },
  {
    role: "seventh",
    is: [
      { why: "of a dominant", text: "C7 // *Bb4@1", setting: { key: "F" } },
      { why: "major", text: "Cmaj7 // *B4@1" },
      { why: "the sixth stands in on a sixth chord", text: "C6 // *A4@1" },
      { why: "diminished", text: "Cdim7 // *A4@1" },
    ],
    isNot: [
      { why: "the sixth of a triad", text: "C // *A4@1", role: "tension" },
      { why: "the major seventh over a bare triad is a colour", text: "C | G7 // *B4@1", role: "tension" },
      { why: "the flat seventh over a major seventh chord", text: "Cmaj7 // *Bb4@1", role: "outside" },
    ],
  },
  {
    role: "tension",
    is: [
      { why: "ninth of a dominant", text: "G7 | C // *A4@1" },
      { why: "sharp eleventh of a major seventh chord on IV", text: "Fmaj7 | C // *B4@1" },
      { why: "flat ninth of an altered dominant", text: "G7alt | C // *Ab4@1" },
      { why: "eleventh of a minor seventh chord on II", text: "Dm7 | G7 // *G4@1" },
      { why: "named by the symbol", text: "C9 // *D4@1", setting: { key: "F" } },
    ],
    isNot: [
      { why: "the fourth over a dominant", text: "G7 | C // *C4@1", role: "avoid" },
      { why: "the flat ninth over a dominant that stays", text: "C7 | C7 // *Db4@1", role: "outside" },
      { why: "the thirteenth over II sounds the dominant early", text: "Dm7 | G7 // *B4@1", role: "avoid" },
    ],
  },
  {
    role: "blue",
    is: [
      { why: "the third of I7", text: "C7 | F7 // *Eb4@1", setting: BLUES },
      { why: "the fifth of I7", text: "C7 | F7 // *Gb4@1", setting: BLUES },
      { why: "the third of IV7", text: "C7 | F7 // | *Ab4@1", setting: BLUES },
    ],
    isNot: [
      {
        why: "the same note in the standard idiom",
        text: "C7 | C7 // *Eb4@1",
        role: "outside",
      },
      { why: "named by the symbol", text: "C7#9 | F7 // *Eb4@1", setting: BLUES, role: "tension" },
      {
        why: "the key's blue third where it is the chord's seventh",
        text: "C7 | F7 // | *Eb4@1",
        setting: BLUES,
        role: "seventh",
      },
    ],
  },
  {
    role: "avoid",
    is: [
      { why: "the fourth over Imaj7", text: "Cmaj7 | Dm7 // *F4@1" },
      { why: "the fourth over a dominant", text: "G7 | C // *C4@1" },
      { why: "the flat ninth over III", text: "Em7 | Am7 // *F4@1" },
      { why: "the flat thirteenth over VI", text: "Am7 | Dm7 // *F4@1" },
    ],
    isNot: [
      { why: "the fourth over II", text: "Dm7 | G7 // *G4@1", role: "tension" },
      { why: "the sharp eleventh in its place", text: "Fmaj7 | C // *B4@1", role: "tension" },
      {
        why: "a half step above a chord tone, but out of the scale",
        text: "Cmaj7 | Dm7 // *Ab4@1",
        role: "outside",
      },
      { why: "the flat ninth where the dominant is altered", text: "G7alt | C // *Ab4@1", role: "tension" },
    ],
  },
  {
    role: "outside",
    is: [
      { why: "the minor third over a major seventh chord", text: "Cmaj7 | Dm7 // *Eb4@1" },
      { why: "the major seventh over a dominant", text: "G7 | C // *F#4@1" },
      { why: "the major third over a minor chord", text: "Dm7 | G7 // *F#4@1" },
      { why: "a note of the key where no chord sounds", text: "N.C. // *D4@1" },
    ],
    isNot: [
      { why: "out of the key, but in the chord", text: "A7 | Dm7 // *C#4@1", role: "third" },
      { why: "out of the key, but in the chord's scale", text: "Db7 | C // *Eb4@1", role: "tension" },
      { why: "blue", text: "C7 | F7 // *Eb4@1", setting: BLUES, role: "blue" },
    ],
  },
];

describe.each(RULES)("harmonic role: $role", ({ role, is, isNot }) => {
  it.each(is)("$text is one: $why", ({ text, setting }) => {
    expect(asked(text, setting).role).toBe(role);
  });
  it.each(isNot)("$text is none: $why", (example) => {
    expect(asked(example.text, example.setting).role).toBe(example.role);
    expect(example.role).not.toBe(role);
  });
  it("has at least three examples of either kind", () => {
    expect(is.length).toBeGreaterThanOrEqual(3);
    expect(isNot.length).toBeGreaterThanOrEqual(3);
  });
});
