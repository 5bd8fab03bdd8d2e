/**
 * Devices by example: what is one, and what only looks like one. Definitions as teachers give them [practice]; the
 * arpeggio from the third to the flat ninth: Ligon [memory]; the scale with an added half step: Baker [memory];
 * side-slips, upper structures, tritone substitutes and pentatonics: Levine [memory]; approaches: Coker [memory].
 */
import type { DeviceName } from "../../src/devices/index.ts";
import type { Setting } from "../harmony/notation.ts";

export interface DeviceExample {
  readonly text: string;
  readonly setting?: Setting;
  readonly why?: string;
}

const BLUES: Setting = { idiom: "blues" };
const IN_F: Setting = { key: "F" };

export const EXAMPLES: Readonly<
  Record<
    Exclude<DeviceName, "answering end">,
    { is: readonly DeviceExample[]; isNot: readonly DeviceExample[] }
  >
> = {
  "side-slip": {
    is: [
      { text: "Dm7 | Dm7 // D4@1 E4@1.5 F4@2 A4@2.5 Eb4@3 F4@3.5 Gb4@4 Bb4@4.5 | A4@1" },
      { text: "Dm7 | Dm7 // Eb4@1 F4@1.5 Gb4@2 Bb4@2.5 D4@3 E4@3.5 F4@4 A4@4.5 | A4@1" },
      { text: "Dm7 | Dm7 // Eb5@1 Db5@1.5 Bb4@2 Ab4@2.5 Gb4@3 Eb4@3.5 Gb4@4 Ab4@4.5 | A4@1" },
      { text: "Am7 | Am7 // Bb4@1 Db5@1.5 Eb5@2 F5@2.5 Eb5@3 Db5@3.5 Bb4@4 Ab4@4.5 | A4@1" },
    ],
    isNot: [
      {
        text: "Dm7 | Dm7 // D4@1 E4@1.5 F4@2 A4@2.5 E4@3 F#4@3.5 G4@4 B4@4.5 | A4@1",
        why: "a whole step away",
      },
      {
        text: "Dm7 | Dm7 // D4@1 Eb4@1.5 E4@2 F4@2.5 F#4@3 G4@3.5 G#4@4 A4@4.5 | A4@1",
        why: "a chromatic run",
      },
      {
        text: "Dm7 | Dm7 // D4@1 E4@1.5 F4@2 A4@2.5 Eb4@3 G4@3.5 Ab4@4 Bb4@4.5 | A4@1",
        why: "another shape",
      },
      {
        text: "Dm7 | Ebm7 // D4@1 F4@1.5 A4@2 C5@2.5 | Eb4@1 Gb4@1.5 Bb4@2 Db5@2.5",
        why: "the chord moves as well",
      },
      {
        text: "Dm7 | Dm7 // F4@1 F4@1.5 F4@2 F#4@2.5 F#4@3 F#4@3.5 | G4@4",
        why: "a repeated note that shifts is no figure",
      },
    ],
  },
  "third to flat ninth": {
    is: [
      { text: "G7 | C // B3@1 D4@1.5 F4@2 Ab4@2.5 G4@3" },
      { text: "C7 | F // E4@2 G4@2.5 Bb4@3 Db5@3.5 C5@4", setting: IN_F },
      { text: "E7 | Am // G#4@1 B4@1.5 D5@2 F5@2.5 E5@3", setting: { key: "Am" } },
      { text: "A7 | Dm7 // C#4@3 E4@3.5 G4@4 Bb4@4.5 | A4@1" },
    ],
    isNot: [
      { text: "G7 | C // B3@1 D4@1.5 F4@2 A4@2.5 G4@3", why: "the natural ninth" },
      { text: "G7 | C // Ab4@1 F4@1.5 D4@2 B3@2.5 C4@3", why: "falling" },
      { text: "Bdim7 | C // B3@1 D4@1.5 F4@2 Ab4@2.5 G4@3", why: "the diminished chord itself" },
      { text: "G7 | C // B3@1:0.5 D4@1.5 F4@2:0.5 Ab4@4 G4@4.5", why: "a breath before the ninth" },
    ],
  },
  "tritone outline": {
    is: [
      { text: "G7 | C // Db4@3 F4@3.5 Ab4@4 Cb5@4.25 Ab4@4.5 | G4@1" },
      { text: "G7 | C // Ab4@3 F4@3.5 Db4@4 Ab4@4.5 | G4@1" },
      { text: "C7 | F // Gb4@3 Bb4@3.5 Db5@4 Gb4@4.5 | F4@1", setting: IN_F },
    ],
    isNot: [
      { text: "G7 | C // G4@3 B4@3.5 D5@4 F5@4.5 | E5@1", why: "the chord itself" },
      { text: "G7 | C // Db4@3 F4@3.5 Ab4@4 Db5@4.5 | E5@1", why: "it does not give way by a half step" },
      { text: "Db7 | C // Db4@3 F4@3.5 Ab4@4 Db5@4.5 | C5@1", why: "the substitute is the chord" },
      { text: "G7 | C // Db4@3 Eb4@3.5 F4@4 Ab4@4.5 | G4@1", why: "a scale" },
    ],
  },
  "upper structure": {
    is: [
      { text: "Cmaj7 // D4@1 F#4@1.5 A4@2 D5@2.5", setting: { key: "G" }, why: "D over the IV" },
      { text: "G7 | C // Eb4@1 G4@1.5 Bb4@2 Eb5@2.5 D5@3", why: "E flat over G7: b13 1 #9" },
      { text: "C7 | F // Ab4@1 C5@1.5 Eb5@2 C5@2.5 Ab4@3 F4@3.5", setting: IN_F },
      { text: "G7 | C // A4@1 C#5@1.5 E5@2 C#5@2.5 A4@3", why: "A over G7: 9 #11 13" },
    ],
    isNot: [
      { text: "C7 | F // C4@1 E4@1.5 G4@2 C5@2.5", setting: IN_F, why: "the chord's own triad" },
      { text: "Cmaj7 // E4@1 G4@1.5 B4@2 E5@2.5", why: "third, fifth and seventh are chord tones" },
      { text: "G7 | C // F4@1 A4@1.5 C5@2 F5@2.5", why: "its fifth is the avoid note" },
      { text: "G7 | C // A4@1 B4@1.5 C#5@2 E5@2.5", why: "a scale" },
    ],
  },
  "other pentatonic": {
    is: [
      { text: "Cmaj7 // G4@1 A4@1.5 B4@2 D5@2.5 E5@3 G5@3.5", why: "on the fifth" },
      { text: "Dm7 | Dm7 // A4@1 C5@1.5 D5@2 E5@2.5 G5@3 A5@3.5", why: "the minor one on the fifth" },
      {
        text: "Fmaj7 // G4@1 A4@1.5 B4@2 D5@2.5 E5@3 D5@3.5",
        setting: { key: "C" },
        why: "on the ninth, over the IV",
      },
    ],
    isNot: [
      { text: "Cmaj7 // C4@1 D4@1.5 E4@2 G4@2.5 A4@3 C5@3.5", why: "the chord's own" },
      {
        text: "Cm7 | F // C4@1 Eb4@1.5 F4@2 G4@2.5 Bb4@3 C5@3.5",
        setting: { key: "Bb" },
        why: "the minor one on the root",
      },
      { text: "Cmaj7 // G4@1 A4@1.5 B4@2 C5@2.5 D5@3 E5@3.5", why: "a scale with a half step" },
      { text: "Cmaj7 // G4@1 A4@1.5 B4@2 D5@2.5 B4@3 A4@3.5", why: "four of its tones only" },
    ],
  },
  "added passing note": {
    is: [
      { text: "C7 // C5@1 B4@1.5 Bb4@2 A4@2.5 G4@3 F4@3.5 E4@4", setting: IN_F },
      { text: "G7 // G5@1 F#5@1.5 F5@2 E5@2.5 D5@3 C5@3.5 B4@4" },
      { text: "C6 // C5@1 B4@1.5 A4@2 G#4@2.5 G4@3 F4@3.5 E4@4 D4@4.5 | C4@1" },
    ],
    isNot: [
      {
        text: "C7 // C5@1 Bb4@1.5 A4@2 G4@2.5 F4@3 E4@3.5 D4@4",
        setting: IN_F,
        why: "no half step is added",
      },
      {
        text: "C7 // C5@1.5 B4@2 Bb4@2.5 A4@3 G4@3.5 F4@4 E4@4.5",
        setting: IN_F,
        why: "chord tones off the beat",
      },
      { text: "C7 // C5@1 B4@1.5 Bb4@2 A4@2.5 Ab4@3 G4@3.5 Gb4@4", setting: IN_F, why: "chromatic" },
    ],
  },
  sequence: {
    is: [
      { text: "C | C // C4@1 E4@1.5 D4@2 F4@2.5 E4@3 G4@3.5 F4@4 A4@4.5", why: "broken thirds" },
      { text: "C | C // C4@1 D4@1.5 E4@2 D4@3 E4@3.5 F4@4 | E4@1 F4@1.5 G4@2 F4@3" },
      { text: "C | C // G4@1 A4@1.5 G4@2 E4@2.5 F4@3 G4@3.5 F4@4 D4@4.5 | E4@1 F4@1.5 E4@2 C4@2.5 G4@3" },
    ],
    isNot: [
      { text: "C | C // C4@1 D4@1.5 E4@2 F4@2.5 G4@3 A4@3.5 B4@4 C5@4.5 | D5@1", why: "a scale" },
      { text: "C | C // C4@1 D4@1.5 E4@2 D4@3 E4@3.5 F4@4", why: "moved once only" },
      { text: "C | C // C4@1 E4@1.5 G4@2 C4@2.5 E4@3 G4@3.5 C4@4 E4@4.5 | G4@1", why: "repeated, not moved" },
      { text: "C | C // C4@1 D4@1.5 E4@2 D4@3 E4@3.5 F4@4 | G4@1 A4@1.5 B4@2", why: "moved by another step" },
    ],
  },
  pedal: {
    is: [
      { text: "G7 | C // G5@1 D5@1.5 G5@2 Db5@2.5 G5@3 C5@3.5 G5@4 B4@4.5 | C5@1" },
      { text: "C | C // C5@1 E4@1.5 C5@2 F4@2.5 C5@3 G4@3.5 C5@4" },
      { text: "Am // E5@1 A4@1.5 E5@2 B4@2.5 E5@3 C5@3.5 E5@4 B4@4.5", setting: { key: "Am" } },
    ],
    isNot: [
      { text: "C7 // A4@1 E4@1.5 A4@2 E4@2.5 A4@3 E4@3.5", why: "a tremolo" },
      { text: "C7 // A4@1 E4@1.5 A4@2 E4@2.5 A4@3 F4@3.5", why: "a tremolo that gives way" },
      { text: "C // C5@1 E4@1.5 C5@2 G4@2.5 C5@3", why: "the other line leaps, and it is short" },
      { text: "C // C4@1 E4@1.5 G4@2 E4@2.5 C4@3 E4@3.5 G4@4", why: "a broken chord" },
    ],
  },
  "chain of approaches": {
    is: [
      { text: "C // B3@1 C4@1.5 D#4@2 E4@2.5 F#4@3 G4@3.5" },
      { text: "G7 | C // F#4@1 G4@1.5 A#4@2 B4@2.5 C#5@3 D5@3.5" },
      { text: "Dm7 | G7 // C#4@1 D4@1.5 E4@2 F4@2.5 G#4@3 A4@3.5" },
    ],
    isNot: [
      { text: "C // B3@1 C4@1.5 D#4@2 E4@2.5", why: "two targets" },
      { text: "C // B3@1 C4@1.5 B3@2 C4@2.5 B3@3 C4@3.5 E4@4", why: "a trill: one target again and again" },
      { text: "A7 | Dm // G#4@1 G4@1.5 F4@2 E4@2.5 D4@3 C#4@3.5", why: "a scale run" },
      { text: "C // C4@1 C#4@1.5 D4@2 D#4@2.5 E4@3 F4@3.5 F#4@4 G4@4.5", why: "a chromatic run" },
      { text: "C // D4@1 C4@1.5 F4@2 E4@2.5 A4@3 G4@3.5", why: "two of them by whole step" },
    ],
  },
  "blues turn": {
    is: [
      { text: "C7 // Eb4@1.5 E4@2 C4@2.5", setting: BLUES },
      { text: "C7 // ~Eb5@2 E5@2 G5@2.5", setting: BLUES },
      { text: "F7 // Ab4@2.5 A4@3 C5@3.5", setting: { key: "F", idiom: "blues" } },
    ],
    isNot: [
      { text: "C7 // Eb4@1 D4@1.5 C4@2", setting: BLUES, why: "it falls" },
      { text: "C7 // Eb4@1 E4@1.5 F4@2", setting: BLUES, why: "it does not go home" },
      { text: "Cmaj7 // D#4@1 E4@1.5 C4@2", why: "no dominant" },
      { text: "Am7 // D#4@1 E4@1.5 C4@2", why: "the fourth raised into the fifth" },
    ],
  },
};
