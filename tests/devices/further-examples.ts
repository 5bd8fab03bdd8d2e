/**
 * Ten more of every device and ten that only look like it, written and named by hand from the definitions before
 * anything was run on them; sources as in `examples.ts`. On the first run 105 of 110 were found and 1 of 110 was said
 * wrongly. Two figures were missed by their rules (a sequence by half steps; a phrase that returns whole was an answering
 * end) and four examples were slips against the definitions: scale runs, and a rest before the resolution.
 */
import type { DeviceName } from "../../src/devices/index.ts";
import type { DeviceExample } from "./examples.ts";

/** Of an answering end the first phrase has so many notes; the rest are the second. */
export interface SecondExample extends DeviceExample {
  readonly first?: number;
}

export const FURTHER_EXAMPLES: Readonly<
  Record<DeviceName, { is: readonly SecondExample[]; isNot: readonly SecondExample[] }>
> = {
  "side-slip": {
    is: [
      { text: "Dm7 | Dm7 // A4@1 G4@1.5 F4@2 D4@2.5 Bb4@3 Ab4@3.5 Gb4@4 Eb4@4.5 | D4@1" },
      {
        text: "Gm7 | Gm7 // G4@1 A4@1.5 Bb4@2 D5@2.5 F#4@3 G#4@3.5 A4@4 C#5@4.5 | D5@1",
        setting: { key: "F" },
      },
      { text: "Fm7 | Fm7 // C5@1 Ab4@1.5 F4@2 B4@2.5 G4@3 E4@3.5 F4@4", setting: { key: "Eb" } },
      { text: "Cmaj7 | Cmaj7 // E4@1 G4@1.5 B4@2 Eb4@2.5 Gb4@3 Bb4@3.5 B4@4" },
      { text: "G7 | G7 // D5@1 F5@1.5 G5@2 A5@2.5 C#5@3 E5@3.5 F#5@4 G#5@4.5 | A5@1" },
      {
        text: "Em7 | Em7 // F4@1 Ab4@1.5 Bb4@2 C5@2.5 E4@3 G4@3.5 A4@4 B4@4.5 | G4@1",
        setting: { key: "Em" },
      },
      {
        text: "Am7 | Am7 // E5@1 D5@1.5 C5@2 A4@2.5 F5@3 Eb5@3.5 Db5@4 Bb4@4.5 | A4@1",
        setting: { key: "G" },
      },
      { text: "Cm7 | Cm7 // C#4@1 E4@1.5 F#4@2 G#4@2.5 B4@3 C#5@3.5 C5@4", setting: { key: "Bb" } },
      {
        text: "Fmaj7 | Fmaj7 // A4@1 C5@1.5 E5@2 C5@2.5 G#4@3 B4@3.5 Eb5@4 B4@4.5 | C5@1",
        setting: { key: "F" },
      },
      { text: "Dm7 | Dm7 // F4@1 A4@1.5 C5@2 Gb4@3 Bb4@3.5 Db5@4 | C5@1" },
    ],
    isNot: [
      {
        text: "Am7 Abm7 | Gmaj7 // A4@1 C5@1.5 E5@2 G5@2.5 Ab4@3 B4@3.5 Eb5@4 Gb5@4.5 | D5@1",
        why: "the chords move as well",
        setting: { key: "G" },
      },
      {
        text: "Dm7 | Dm7 // D4@1 F4@1.5 A4@2 F4@2.5 Eb4@3 Gb4@3.5 A4@4 Gb4@4.5 | F4@1",
        why: "another shape",
      },
      {
        text: "Em7 | Em7 // E4@1 G4@1.5 B4@2 D5@2.5 F#4@3 A4@3.5 C#5@4 E5@4.5 | E5@1",
        why: "a whole step away",
        setting: { key: "D" },
      },
      { text: "Dm7 | Dm7 // D4@1 F4@1.5 A4@2 D5@2.5 F5@3 A5@3.5 | G5@1", why: "an octave away" },
      { text: "Am7 | Am7 // B4@1 E5@1.5 B4@2 C5@2.5 F5@3 C5@3.5 | D5@1", why: "a half step of the scale" },
      { text: "Dm7 | Dm7 // D4@1 F4@1.5 A4@2 Eb4@2.5:1 Gb4@3.5 Bb4@3.75 | A4@1", why: "another rhythm" },
      { text: "Dm7 | Dm7 // D4@1 F4@1.5 A4@2:0.5 Eb4@4 Gb4@4.5 | Bb4@1 A4@1.5", why: "a breath between" },
      {
        text: "Dm7 | Dm7 // D4@1 F4@1.5 A4@2 C5@2.5 Eb4@3 Gb4@3.5 Bb4@4 Db5@4.5 | F4@1",
        why: "it leaps away",
      },
      { text: "Dm7 // D4@1 E4@1.5 D4@2 Eb4@2.5 F4@3 Eb4@3.5 | D4@1", why: "a turn that shifts is no figure" },
      { text: "Cmaj7 // C5@1 E5@1.5 G5@2 C#5@2.5 E5@3 G5@3.5 | A5@1", why: "one note is raised" },
    ],
  },
  "third to flat ninth": {
    is: [
      { text: "F7 | Bb // A4@1 C5@1.5 Eb5@2 Gb5@2.5 F5@3", setting: { key: "Bb" } },
      { text: "Bb7 | Eb // D4@3 F4@3.5 Ab4@4 Cb5@4.5 | Bb4@1", setting: { key: "Eb" } },
      { text: "D7 | G // F#4@1 A4@1.5 C5@2 Eb5@2.5 D5@3 C5@3.5", setting: { key: "G" } },
      { text: "B7 | Em // D#4@1 F#4@1.5 A4@2 C5@2.5 B4@3", setting: { key: "Em" } },
      { text: "A7 | D // C#5@2 E5@2.25 G5@2.5 Bb5@2.75 A5@3", setting: { key: "D" } },
      { text: "Eb7 | Ab // G4@1 Bb4@1.5 Db5@2 Fb5@2.5 Eb5@3", setting: { key: "Ab" } },
      { text: "C7b9 | Fm // E4@1 G4@1.5 Bb4@2 Db5@2.5 C5@3", setting: { key: "Fm" } },
      { text: "F7 | Bb // F4@1 A4@1.5 C5@2 Eb5@2.5 Gb5@3 F5@3.5", setting: { key: "Bb" } },
      { text: "Db7 | Gb // F4@1 Ab4@1.5 Cb5@2 D5@2.5 Db5@3", setting: { key: "Gb" } },
      { text: "E7 | Am // B3@1 G#3@1.5 B3@2 D4@2.5 F4@3 E4@3.5", setting: { key: "Am" } },
    ],
    isNot: [
      { text: "G7 | C // B3@1 D4@1.5 F4@2 G4@2.5 Ab4@3 G4@3.5", why: "the root comes between" },
      { text: "G7 | C // B4@1 D4@1.5 F4@2 Ab4@2.5 G4@3", why: "the third stands above" },
      { text: "Gm7 | C // Bb3@1 D4@1.5 F4@2 Ab4@2.5 G4@3", why: "a minor chord" },
      { text: "G7 | C // D4@1 F4@1.5 Ab4@2 B4@2.5 C5@3", why: "it begins with the fifth" },
      { text: "Cmaj7 // E4@1 G4@1.5 B4@2 D5@2.5", why: "a major seventh, and the natural ninth" },
      {
        text: "D7 G7 | C // F#4@1.5 A4@2 C5@2.5 Eb5@3 D5@3.5",
        why: "the chord has changed before the last note",
      },
      { text: "G7 | C // B3@1 D4@1.5 F4@2 A4@2.5 Ab4@3 G4@3.5", why: "the natural ninth comes first" },
      { text: "G7 | C // B3@1 D4@1.5 Ab4@2 F4@2.5 G4@3", why: "another order" },
      {
        text: "F#dim7 | G // A4@1 C5@1.5 Eb5@2 F#5@2.5 G5@3",
        why: "tones of the diminished chord itself",
        setting: { key: "G" },
      },
      { text: "G7 | C // B3@1 F4@1.5 Ab4@2 D5@2.5 C5@3", why: "an open position" },
    ],
  },
  "tritone outline": {
    is: [
      { text: "C7 | F // Gb4@1 Bb4@1.5 Db5@2 Fb5@2.5 Db5@3 Bb4@3.5 Gb4@4 | F4@1", setting: { key: "F" } },
      { text: "F7 | Bb // B4@3 D#5@3.5 F#5@4 B4@4.5 | Bb4@1", setting: { key: "Bb" } },
      { text: "D7 | G // Ab4@3 C5@3.5 Eb5@4 Ab5@4.5 | G5@1", setting: { key: "G" } },
      { text: "A7 | D // Eb5@3 Bb4@3.5 G4@4 Eb4@4.5 | D4@1", setting: { key: "D" } },
      { text: "Bb7 | Eb // E4@3 G#4@3.5 B4@4 E5@4.5 | Eb5@1", setting: { key: "Eb" } },
      { text: "E7 | A // Bb4@2.5 D5@3 F5@3.5 Ab5@4 F5@4.5 | E5@1", setting: { key: "A" } },
      { text: "G7 | Cm // Db5@3 Ab4@3.5 F4@4 Db4@4.5 | C4@1", setting: { key: "Cm" } },
      { text: "B7 | E // F5@3 C5@3.5 A4@4 F4@4.5 | E4@1", setting: { key: "E" } },
      { text: "Eb7 | Ab // A4@3 C#5@3.5 E5@4 A4@4.5 | Ab4@1", setting: { key: "Ab" } },
      { text: "Ab7 | Db // D5@1 F#5@1.5 A5@2 F#5@2.5 D5@3 A4@3.5 D5@4 | Db5@1", setting: { key: "Db" } },
    ],
    isNot: [
      { text: "C7 | F // C4@3 E4@3.5 G4@4 Bb4@4.5 | A4@1", why: "the chord itself", setting: { key: "F" } },
      {
        text: "C7 | F // Gb4@3 Bb4@3.5 Db5@4 Gb5@4.5 | A5@1",
        why: "it goes on by leap",
        setting: { key: "F" },
      },
      { text: "C7 | F // Gb4@3 Ab4@3.5 Bb4@4 Db5@4.5 | C5@1", why: "a scale", setting: { key: "F" } },
      {
        text: "Gb7 | F // Gb4@3 Bb4@3.5 Db5@4 Gb4@4.5 | F4@1",
        why: "the substitute is the chord",
        setting: { key: "F" },
      },
      {
        text: "C7 | F // E4@3 G4@3.5 Bb4@4 Db5@4.5 | C5@1",
        why: "third to flat ninth",
        setting: { key: "F" },
      },
      {
        text: "Cm7 | F7 // Gb4@3 Bb4@3.5 Db5@4 Gb4@4.5 | F4@1",
        why: "over a minor chord",
        setting: { key: "Bb" },
      },
      { text: "C7 | F // Bb4@3.5 Db5@4 Gb4@4.5 | F4@1", why: "three notes", setting: { key: "F" } },
      { text: "C7 | F // Gb4@3 Bb4@3.5 D5@4 Gb5@4.5 | F5@1", why: "another triad", setting: { key: "F" } },
      { text: "C7 | F // F#4@3 A4@3.5 C#5@4 F#4@4.5 | F4@1", why: "a minor triad", setting: { key: "F" } },
      {
        text: "C7 | F // Gb4@1 Bb4@1.5 Db5@2 Gb4@2.5:0.5 F4@4.5",
        why: "a breath before it gives way",
        setting: { key: "F" },
      },
    ],
  },
  "upper structure": {
    is: [
      { text: "Fmaj7 // G4@1 B4@1.5 D5@2 G5@2.5" },
      { text: "Dm7 // C5@1 E5@1.5 G5@2 E5@2.5 C5@3" },
      { text: "C7 | F // D4@1 F#4@1.5 A4@2 D5@2.5 C5@3", setting: { key: "F" } },
      { text: "F7 | Bb // Db5@1 F5@1.5 Ab5@2 F5@2.5 Db5@3 C5@3.5", setting: { key: "Bb" } },
      { text: "G7 | C // E4@1 G#4@1.5 B4@2 E5@2.5 D5@3" },
      { text: "D7 | G // Bb4@1 D5@1.5 F5@2 Bb5@2.5 A5@3", setting: { key: "G" } },
      { text: "Bbmaj7 // C5@1 E5@1.5 G5@2 C6@2.5 G5@3", setting: { key: "F" } },
      { text: "Am7 // G4@1 B4@1.5 D5@2 B4@2.5 G4@3", setting: { key: "G" } },
      { text: "A7 | D // F#4@1 A#4@1.5 C#5@2 F#5@2.5 E5@3", setting: { key: "D" } },
      { text: "Ebmaj7 // F4@1 A4@1.5 C5@2 A4@2.5 F4@3", setting: { key: "Bb" } },
    ],
    isNot: [
      { text: "Fmaj7 // F4@1 A4@1.5 C5@2 F5@2.5", why: "the chord's own triad" },
      { text: "Dm7 // F4@1 A4@1.5 C5@2 F5@2.5", why: "third, fifth and seventh" },
      { text: "G7 | C // C4@1 E4@1.5 G4@2 C5@2.5", why: "its root is the avoid note" },
      { text: "G7 | C // B4@1 D5@1.5 F5@2 B5@2.5", why: "tones of the chord" },
      { text: "G7 | C // F#4@1 A4@1.5 D5@2 F#5@2.5", why: "its third is foreign" },
      { text: "Cmaj7 // G4@1 B4@1.5 D5@2 G5@2.5", why: "one tension only" },
      { text: "G7 | C // A4@1 C#5@1.5 E5@2", why: "three notes" },
      { text: "C // D4@1 F#4@1.5 A4@2 D5@2.5", why: "over a triad" },
      { text: "G7 | C // Eb4@1 F4@1.5 G4@2 Bb4@2.5", why: "a scale" },
      { text: "Dm7 // E4@1 G#4@1.5 B4@2 E5@2.5", why: "its third is foreign" },
    ],
  },
  "other pentatonic": {
    is: [
      { text: "Cmaj7 // D4@1 E4@1.5 G4@2 A4@2.5 B4@3 D5@3.5" },
      { text: "Fmaj7 // C5@1 D5@1.5 E5@2 G5@2.5 A5@3 G5@3.5" },
      { text: "Dm7 // C4@1 D4@1.5 E4@2 G4@2.5 A4@3 C5@3.5" },
      { text: "G7sus4 // F4@1 G4@1.5 A4@2 C5@2.5 D5@3 F5@3.5" },
      { text: "Em7 // B4@1 D5@1.5 E5@2 F#5@2.5 A5@3 B5@3.5", setting: { key: "D" } },
      { text: "Bbmaj7 // C5@1 D5@1.5 E5@2 G5@2.5 A5@3 C6@3.5", setting: { key: "F" } },
      { text: "Gm7 // D5@1 C5@1.5 A4@2 G4@2.5 F4@3 D4@3.5", setting: { key: "F" } },
      { text: "C7 | F // Gb4@1 Ab4@1.5 Bb4@2 Db5@2.5 Eb5@3 Gb5@3.5 | F5@1", setting: { key: "F" } },
      { text: "Ebmaj7 // Bb4@1 C5@1.5 D5@2 F5@2.5 G5@3 F5@3.5 D5@4", setting: { key: "Eb" } },
      { text: "Am7 // E5@1 D5@1.5 B4@2 A4@2.5 G4@3 E4@3.5 D4@4", setting: { key: "G" } },
    ],
    isNot: [
      { text: "Gmaj7 // G4@1 A4@1.5 B4@2 D5@2.5 E5@3 G5@3.5", why: "the chord's own", setting: { key: "G" } },
      {
        text: "Am7 // A4@1 C5@1.5 D5@2 E5@2.5 G5@3 A5@3.5",
        why: "the minor one on the root",
        setting: { key: "G" },
      },
      { text: "Cmaj7 // G4@1 A4@1.5 B4@2 D5@2.5 F5@3 G5@3.5", why: "a tone of none" },
      { text: "Cmaj7 // D4@1 E4@1.5 F#4@2 A4@2.5 B4@3 D5@3.5", why: "a tone foreign to the chord" },
      { text: "Dm7 G7 | C // C4@1.5 D4@2 E4@2.5 G4@3 A4@3.5 C5@4", why: "the chord changes within" },
      { text: "Cmaj7 // G4@1 B4@1.5 D5@2 G5@2.5 B5@3 D6@3.5", why: "a broken triad" },
      { text: "Cmaj7 // G4@1 A4@1.5 G4@2 E4@2.5 G4@3 A4@3.5", why: "three of its tones" },
      { text: "C6 // C5@1 A4@1.5 G4@2 E4@2.5 D4@3 C4@3.5", why: "the chord's own, falling" },
      { text: "Cmaj7 // C4@1 D4@1.5 E4@2 F4@2.5 G4@3 A4@3.5 B4@4", why: "a scale" },
      {
        text: "Fm7 // F4@1 Ab4@1.5 Bb4@2 C5@2.5 Eb5@3 F5@3.5",
        why: "the minor one on the root",
        setting: { key: "Eb" },
      },
    ],
  },
  "added passing note": {
    is: [
      { text: "F7 // F5@1 E5@1.5 Eb5@2 D5@2.5 C5@3 Bb4@3.5 A4@4", setting: { key: "Bb" } },
      { text: "Bb7 // Bb4@1 A4@1.5 Ab4@2 G4@2.5 F4@3 Eb4@3.5 D4@4", setting: { key: "Eb" } },
      { text: "D7 // D4@1 E4@1.5 F#4@2 G4@2.5 A4@3 B4@3.5 C5@4 C#5@4.5 | D5@1", setting: { key: "G" } },
      { text: "F6 // F5@1 E5@1.5 D5@2 C#5@2.5 C5@3 Bb4@3.5 A4@4 G4@4.5 | F4@1", setting: { key: "F" } },
      { text: "A7 // A4@1 G#4@1.5 G4@2 F#4@2.5 E4@3 D4@3.5 C#4@4", setting: { key: "D" } },
      { text: "Eb7 // G5@1 F5@1.5 Eb5@2 D5@2.5 Db5@3 C5@3.5 Bb4@4", setting: { key: "Ab" } },
      { text: "C7 // E5@1 D5@1.5 C5@2 B4@2.5 Bb4@3 A4@3.5 G4@4", setting: { key: "F" } },
      { text: "Bb6 // Bb4@1 A4@1.5 G4@2 Gb4@2.5 F4@3 Eb4@3.5 D4@4", setting: { key: "Bb" } },
      { text: "G7 | G7 // D5@1 C5@1.5 B4@2 A4@2.5 G4@3 F#4@3.5 F4@4 E4@4.5 | D4@1" },
      { text: "C6 // C4@1 D4@1.5 E4@2 F4@2.5 G4@3 G#4@3.5 A4@4 B4@4.5 | C5@1" },
    ],
    isNot: [
      {
        text: "F7 // F5@1 Eb5@1.5 D5@2 C5@2.5 Bb4@3 A4@3.5 G4@4",
        why: "no half step is added",
        setting: { key: "Bb" },
      },
      {
        text: "F7 // F5@1.5 E5@2 Eb5@2.5 D5@3 C5@3.5 Bb4@4 A4@4.5",
        why: "chord tones off the beat",
        setting: { key: "Bb" },
      },
      { text: "F7 // F5@1 E5@1.5 Eb5@2 D5@2.5 Db5@3 C5@3.5 B4@4", why: "chromatic", setting: { key: "Bb" } },
      { text: "F7 // F5@1 E5@1.5 Eb5@2 D5@2.5", why: "four notes", setting: { key: "Bb" } },
      { text: "F7 // F5@1 E5@1.5 F5@2 Eb5@2.5 D5@3 C5@3.5", why: "it turns", setting: { key: "Bb" } },
      {
        text: "Fmaj7 // F5@1 E5@1.5 D5@2 C5@2.5 Bb4@3 A4@3.5 G4@4",
        why: "the chord's own seventh",
        setting: { key: "F" },
      },
      {
        text: "C7 // C5@1 Bb4@1.5 A4@2 Ab4@2.5 G4@3 F4@3.5 E4@4",
        why: "another half step, and a sixth on the beat",
        setting: { key: "F" },
      },
      {
        text: "C7 | F // C5@3 B4@3.5 Bb4@4 A4@4.5 | G4@1 F4@1.5 E4@2",
        why: "the chord changes within",
        setting: { key: "F" },
      },
      { text: "C7 // C5@1 B4@1.5 Bb4@2 A4@2.5 F4@3 E4@3.5 C4@4", why: "it leaps", setting: { key: "F" } },
      {
        text: "C7 // E4@1 F4@1.5 F#4@2 G4@2.5 A4@3 Bb4@3.5 C5@4",
        why: "chord tones off the beat",
        setting: { key: "F" },
      },
    ],
  },
  sequence: {
    is: [
      { text: "C | C // E4@1 D4@1.5 C4@2 F4@2.5 E4@3 D4@3.5 G4@4 F4@4.5 | E4@1" },
      { text: "C | C // C5@1 A4@1.5 B4@2 G4@2.5 A4@3 F4@3.5 G4@4 E4@4.5" },
      {
        text: "G | G // D5@1 B4@1.5 C5@2 D5@2.5 C5@3 A4@3.5 B4@4 C5@4.5 | B4@1 G4@1.5 A4@2 B4@2.5",
        setting: { key: "G" },
      },
      { text: "F | F // F4@1 A4@1.5 C5@2 G4@3 Bb4@3.5 D5@4 | A4@1 C5@1.5 E5@2", setting: { key: "F" } },
      {
        text: "Bb | Bb // Bb4@1 D5@1.25 C5@1.5 A4@1.75 C5@2 Eb5@2.25 D5@2.5 Bb4@2.75 D5@3 F5@3.25 Eb5@3.5 C5@3.75",
        setting: { key: "Bb" },
      },
      { text: "Dm7 | G7 | Cmaj7 // F5@1 E5@2 D5@3 F5@4 | E5@1 D5@2 C5@3 E5@4 | D5@1 C5@2 B4@3 D5@4" },
      {
        text: "Eb | Eb // G4@1 F4@1.5 Eb4@2 Ab4@2.5 G4@3 F4@3.5 Bb4@4 Ab4@4.5 | G4@1 C5@1.5 Bb4@2 Ab4@2.5",
        setting: { key: "Eb" },
      },
      { text: "C7 | C7 // C5@1 E5@1.5 B4@2 D#5@2.5 Bb4@3 D5@3.5 A4@4 C#5@4.5", setting: { key: "F" } },
      { text: "A | A // A4@1 C#5@1.5 B4@2 B4@3 D5@3.5 C#5@4 | C#5@1 E5@1.5 D5@2", setting: { key: "A" } },
      { text: "C | C // C4@1 D4@1.5 E4@2 C4@2.5 E4@3 F4@3.5 G4@4 E4@4.5 | G4@1 A4@1.5 B4@2 G4@2.5" },
    ],
    isNot: [
      { text: "C | C // C4@1 E4@1.5 D4@2 F4@2.5 E4@3 G4@3.5 D4@4 F4@4.5", why: "three pairs, then back" },
      { text: "C | C // C4@1 D4@1.5 E4@2 D4@2.5 E4@3 F4@3.5", why: "moved once" },
      { text: "C | C // C5@1 B4@1.5 A4@2 G4@2.5 F4@3 E4@3.5 D4@4 C4@4.5", why: "a scale" },
      { text: "C | C // C4@1 E4@1.5 G4@2 C5@2.5 E5@3 G5@3.5 C6@4", why: "a broken chord" },
      { text: "C | C // C4@1 E4@1.5 C4@2 E4@2.5 C4@3 E4@3.5 C4@4 E4@4.5", why: "repeated" },
      {
        text: "C | C // E4@1 D4@1.5 C4@2 F4@3 E4@3.25 D4@3.75 | G4@1 F4@2 E4@2.5",
        why: "another rhythm each time",
      },
      {
        text: "C | C // E4@1 D4@1.5 C4@2 F4@2.5 E4@3 D4@3.5 A4@4 G4@4.5 | F4@1",
        why: "by a step, then by a third",
      },
      { text: "C | C // E4@1 D4@1.5 C4@2 F4@2.5 G4@3 A4@3.5 G4@4 F4@4.5 | E4@1", why: "turned upside down" },
      { text: "C | C // C4@1 C#4@1.5 D4@2 D#4@2.5 E4@3 F4@3.5 F#4@4 G4@4.5", why: "chromatic" },
      { text: "C | C // E4@1 D4@1.5 C4@2 F4@2.5 E4@3 C4@3.5 G4@4 E4@4.5 | D4@1", why: "other intervals" },
    ],
  },
  pedal: {
    is: [
      { text: "C | C // G5@1 E5@1.5 G5@2 D5@2.5 G5@3 C5@3.5 G5@4" },
      { text: "F7 // C4@1 A4@1.5 C4@2 Bb4@2.5 C4@3 B4@3.5 C4@4 C5@4.5", setting: { key: "F" } },
      { text: "Dm7 // D5@1 A4@1.5 D5@2 Ab4@2.5 D5@3 G4@3.5 D5@4 F4@4.5" },
      { text: "G7 // B4@1 G4@1.5 C5@2 G4@2.5 D5@3 G4@3.5 E5@4 G4@4.5" },
      { text: "Bb // F5@1 D5@1.25 F5@1.5 C5@1.75 F5@2 Bb4@2.25 F5@2.5 A4@2.75", setting: { key: "Bb" } },
      { text: "Am // E4@1 C5@1.5 E4@2 B4@2.5 E4@3 A4@3.5 E4@4 G#4@4.5", setting: { key: "Am" } },
      { text: "Eb // Eb4@1 G4@1.5 Eb4@2 Ab4@2.5 Eb4@3 A4@3.5 Eb4@4 Bb4@4.5", setting: { key: "Eb" } },
      { text: "D7 | G // A4@1 F#5@1.5 A4@2 E5@2.5 A4@3 D5@3.5 A4@4 C5@4.5 | B4@1", setting: { key: "G" } },
      { text: "Cm // G4@1 C5@1.5 G4@2 B4@2.5 G4@3 Bb4@3.5 G4@4 A4@4.5 | Ab4@1", setting: { key: "Cm" } },
      { text: "F // C5@1 A4@1.5 C5@2 G4@2.5 C5@3 F4@3.5 C5@4", setting: { key: "F" } },
    ],
    isNot: [
      { text: "C // G4@1 E4@1.5 G4@2 E4@2.5 G4@3 E4@3.5 G4@4", why: "a tremolo" },
      { text: "C // C4@1 E4@1.5 G4@2 C5@2.5 G4@3 E4@3.5", why: "a broken chord" },
      { text: "C // G4@1 E4@1.5 A4@2 F4@2.5 B4@3 G4@3.5", why: "thirds, and no note returns" },
      { text: "C // G4@1 F4@1.5 G4@2 E4@2.5", why: "it returns once" },
      { text: "C // C5@1 C5@1.5 C5@2 C5@2.5 B4@3 A4@3.5", why: "a repeated note" },
      { text: "C // E5@1 C5@1.5 G4@2 E5@2.5 C5@3 G4@3.5 E5@4", why: "every third place" },
      { text: "C // G4@1 A4@1.5 G4@2 A4@2.5 G4@3 A4@3.5", why: "a trill" },
      { text: "C // G4@1 A4@1.5 B4@2 G4@2.5 C5@3 D5@3.5 G4@4", why: "at no regular place" },
      { text: "C // E4@1 G4@1.5 E4@2 G4@2.5 F4@3 A4@3.5 F4@4 A4@4.5", why: "both voices move" },
      { text: "C // G5@1:0.5 E5@2.5:0.5 G5@4:0.5 | D5@1.5:0.5 G5@3:0.5", why: "single notes among rests" },
    ],
  },
  "chain of approaches": {
    is: [
      { text: "F // E4@1 F4@1.5 G#4@2 A4@2.5 B4@3 C5@3.5", setting: { key: "F" } },
      { text: "Dm7 // Eb5@1 D5@1.5 Bb4@2 A4@2.5 Gb4@3 F4@3.5" },
      { text: "G7 // A#3@1 B3@1.5 C#4@2 D4@2.5 F#4@3 G4@3.5 E4@4 F4@4.5" },
      { text: "Bbmaj7 // C#5@1 D5@1.5 E5@2 F5@2.5 G#5@3 A5@3.5", setting: { key: "Bb" } },
      { text: "Am7 // G#4@1 A4@1.5 B4@2 C5@2.5 D#5@3 E5@3.5", setting: { key: "G" } },
      { text: "C7 // F#4@1 G4@1.5 D#4@2 E4@2.5 A4@3 Bb4@3.5", setting: { key: "F" } },
      { text: "Eb // Fb5@1 Eb5@1.5 B4@2 Bb4@2.5 F#4@3 G4@3.5", setting: { key: "Eb" } },
      { text: "Cm7 // Db5@1 C5@1.5 Ab4@2 G4@2.5 E4@3 Eb4@3.5", setting: { key: "Bb" } },
      { text: "Fmaj7 // G#4@1 A4@1.5 B4@2 C5@2.5 D#5@3 E5@3.5", setting: { key: "F" } },
      { text: "G6 // A#4@1 B4@1.5 C#5@2 D5@2.5 F#5@3 G5@3.5", setting: { key: "G" } },
    ],
    isNot: [
      { text: "F // E4@1 F4@1.5 G#4@2 A4@2.5 C5@3", why: "two targets", setting: { key: "F" } },
      {
        text: "F // G4@1 F4@1.5 Bb4@2 A4@2.5 D5@3 C5@3.5",
        why: "two of them by whole step",
        setting: { key: "F" },
      },
      {
        text: "F // F4@1 F#4@1.5 G4@2 G#4@2.5 A4@3 A#4@3.5 B4@4 C5@4.5",
        why: "a chromatic run",
        setting: { key: "F" },
      },
      {
        text: "F // G#4@1 A4@1.5 G#4@2 A4@2.5 G#4@3 A4@3.5",
        why: "one target again and again",
        setting: { key: "F" },
      },
      {
        text: "F // F4@1 E4@1.5 A4@2 G#4@2.5 C5@3 B4@3.5",
        why: "the chord tones come first",
        setting: { key: "F" },
      },
      { text: "Cmaj7 // F5@1 E5@1.5 D5@2 C5@2.5 B4@3 A4@3.5 G4@4", why: "a scale" },
      {
        text: "F // E4@1 F4@1.5 G#4@2 A4@2.5:0.5 B4@4.5 | C5@1",
        why: "a breath before the third",
        setting: { key: "F" },
      },
      { text: "F // E4@1 G4@1.5 G#4@2 Bb4@2.5 B4@3 D5@3.5", why: "they do not reach", setting: { key: "F" } },
      {
        text: "C7 // D#4@1 E4@1.5 F#4@2 G4@2.5 A4@3 Bb4@3.5",
        why: "a scale of half and whole steps",
        setting: { key: "F" },
      },
      { text: "Cdim7 // B3@1 C4@1.5 D4@2 Eb4@2.5 F4@3 Gb4@3.5 Ab4@4 A4@4.5", why: "a scale run" },
    ],
  },
  "blues turn": {
    is: [
      { text: "Bb7 // Db4@1.5 D4@2 Bb3@2.5", setting: { key: "Bb", idiom: "blues" } },
      { text: "G7 // ~Bb4@3 B4@3 G4@3.5", setting: { key: "G", idiom: "blues" } },
      { text: "Eb7 // Gb4@2.5 G4@3 Bb4@3.5", setting: { key: "Bb", idiom: "blues" } },
      { text: "A7 // C5@4.5 | C#5@1 A4@1.5", setting: { key: "A", idiom: "blues" } },
      { text: "D7 // F4@1.75 F#4@2 D4@2.5", setting: { key: "D", idiom: "blues" } },
      { text: "C7 // ~Eb4@1 E4@1 G4@1.5 A4@2", setting: { idiom: "blues" } },
      { text: "F7 // Ab5@3.5 A5@4 F5@4.5", setting: { key: "F", idiom: "blues" } },
      { text: "Ab7 // Cb5@1.5 C5@2 Eb5@2.5", setting: { key: "Ab", idiom: "blues" } },
      { text: "E7 // G4@2.5 G#4@3 E4@4", setting: { key: "E", idiom: "blues" } },
      { text: "G7 | C // ~A#4@1 B4@1 D5@1.5" },
    ],
    isNot: [
      { text: "Bb7 // D4@1 Db4@1.5 Bb3@2", why: "it falls", setting: { key: "Bb", idiom: "blues" } },
      {
        text: "Bb7 // Db4@1.5 D4@2 Eb4@2.5",
        why: "it does not go home",
        setting: { key: "Bb", idiom: "blues" },
      },
      { text: "Bbmaj7 // Db4@1.5 D4@2 Bb3@2.5", why: "no dominant", setting: { key: "Bb" } },
      { text: "Bbm7 // Db4@1.5 Eb4@2 Bb3@2.5", why: "a minor chord", setting: { key: "Bbm" } },
      {
        text: "Bb7 // Db4@1.5 D4@2 Ab4@2.5",
        why: "on to the seventh",
        setting: { key: "Bb", idiom: "blues" },
      },
      {
        text: "Bb7 // Db4@1 F4@1.5 D4@2 Bb3@2.5",
        why: "another note between",
        setting: { key: "Bb", idiom: "blues" },
      },
      {
        text: "Bb7 Eb7 | Bb7 // Db4@2.5 D4@3 Bb3@3.5",
        why: "the chord changes between",
        setting: { key: "Bb", idiom: "blues" },
      },
      { text: "G7 | C // A#4@1 B4@2 G4@3", why: "a sharp ninth as long as the third" },
      { text: "Bb7 // E4@1.5 F4@2 Bb4@2.5", why: "the blue fifth", setting: { key: "Bb", idiom: "blues" } },
      {
        text: "Bb7 // Db4@1:0.5 D4@4 Bb3@4.5",
        why: "a breath between",
        setting: { key: "Bb", idiom: "blues" },
      },
    ],
  },
  "answering end": {
    is: [
      { text: "C | C // E4@1 G4@1.5 A4@2 G4@2.5 | C5@1 G4@1.5 A4@2 G4@2.5", first: 4 },
      {
        text: "F | F // F4@1 A4@1.5 C5@2 D5@2.5 C5@3 | D5@1.5 C5@2 D5@2.5 C5@3",
        first: 5,
        setting: { key: "F" },
      },
      {
        text: "Bb | Bb // D5@1 Bb4@1.5 F4@2 G4@2.5 Bb4@3 | Eb5@1 D5@1.5 F4@2 G4@2.5 Bb4@3",
        first: 5,
        setting: { key: "Bb" },
      },
      { text: "C | C | C | C // G4@4 | E4@1 D4@2 C4@3 | A4@4 | E4@1 D4@2 C4@3", first: 4 },
      {
        text: "Gm7 | C7 // D5@1 C5@1.5 Bb4@2 G4@2.25 F4@2.5 | E5@1 C5@1.5 Bb4@2 G4@2.25 F4@2.5",
        first: 5,
        setting: { key: "F" },
      },
      {
        text: "Am | Am // A4@1 C5@1.5 E5@2 D5@2.5 C5@3.5 | G4@1 B4@1.5 E5@2 D5@2.5 C5@3.5",
        first: 5,
        setting: { key: "Am" },
      },
      {
        text: "Eb | Eb // Eb4@1 F4@1.5 G4@2 Bb4@3 | Bb3@1 F4@1.5 G4@2 Bb4@3",
        first: 4,
        setting: { key: "Eb" },
      },
      { text: "G | G // B4@1 D5@2 C5@2.5 B4@3 | A4@1 D5@2 C5@2.5 B4@3", first: 4, setting: { key: "G" } },
      { text: "C7 | F7 // G4@1 Bb4@1.5 C5@2 Eb5@2.5 C5@3 | A4@1 Bb4@1.5 C5@2 Eb5@2.5 C5@3", first: 5 },
      {
        text: "D | D // F#4@1 A4@1.5 G4@2 F#4@2.5 E4@3 | B4@1 A4@1.5 G4@2 F#4@2.5 E4@3",
        first: 5,
        setting: { key: "D" },
      },
    ],
    isNot: [
      {
        text: "C | C // E4@1 G4@1.5 A4@2 G4@2.5 | C5@1 G4@1.5 A4@2 C5@2.5",
        first: 4,
        why: "another last note",
      },
      { text: "C | C // E4@1 G4@1.5 A4@2 G4@2.5 | C5@1 G4@1.5 A4@3 G4@4", first: 4, why: "another rhythm" },
      {
        text: "C | C // E4@1 G4@1.5 A4@2 G4@2.5 | F4@1 A4@1.5 B4@2 A4@2.5",
        first: 4,
        why: "moved to another pitch",
      },
      {
        text: "C | C // E4@1 G4@1.5 A4@2 G4@2.5 | G4@1 A4@1.5 G4@2 E4@2.5",
        first: 4,
        why: "the same notes in another place",
      },
      {
        text: "C | C // E4@1 G4@1.5 A4@2 G4@2.5 | C5@1 B4@1.5 A4@2 G4@2.5",
        first: 4,
        why: "two notes alike",
      },
      {
        text: "C | C // E4@1 G4@1.5 A4@2 G4@2.5 | E4@1 G4@1.5 A4@2 G4@2.5",
        first: 4,
        why: "the whole phrase again",
      },
      {
        text: "C | C // E4@1 G4@1.5 A4@2 G4@2.5 | C5@1 G4@1.5 E4@2 G4@2.5",
        first: 4,
        why: "another note between",
      },
      {
        text: "C | C // G4@1.5 A4@2 G4@2.5 | G4@1.5 A4@2 G4@2.5",
        first: 3,
        why: "three notes are no phrase with an end of its own",
      },
      {
        text: "C | C // G4@1 A4@1.5 G4@2 E4@2.5 | G4@1 A4@1.5 G4@2 C4@2.5",
        first: 4,
        why: "the same beginning, another end",
      },
      {
        text: "C | C // E4@1 G4@1.5 A4@2 G4@2.5 | C5@1 A4@1.5 G4@2 A4@2.5",
        first: 4,
        why: "the end turned round",
      },
    ],
  },
};
