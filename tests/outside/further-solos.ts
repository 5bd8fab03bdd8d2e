/**
 * Fifteen more solos, every note labelled by hand from the definitions before anything was run on them; sources and
 * signs as in `student-solos.ts`. On the first run 368 of 370 line roles, all harmonic roles and all names agreed; the
 * other two were a slip against the definitions (an enclosure across the bar line) and are put right.
 */
import type { StudentSolo } from "./student-solos.ts";

export const FURTHER_SOLOS: readonly StudentSolo[] = [
  {
    name: "II-V-I and VI in B flat",
    setting: { key: "Bb" },
    chords: "Cm7 | F7 | Bbmaj7 | Gm7",
    bars: [
      "G4@1=5.ct Eb4@1.5=3.ct F4@2=t.pa G4@2.5=5.ct Bb4@3=7.ct D5@3.5=t.ap C5@4=1.ct Bb4@4.5=7.ct",
      "A4@1=3.ct C5@1.5=5.ct Eb5@2=7.ct Gb5@2.5=a.ap F5@3=1.ct Eb5@3.5=7.ct Db5@4=a.ap C5@4.5=5.ct",
      "Bb4@1=1.ct D5@2=3.ct Eb5@2.5=v.ne D5@3=3.ct F5@4=5.ct",
      "D5@1=5.ct C5@1.5=t.pa Bb4@2=3.ct A4@2.5=t.pa G4@3=1.ct F4@3.5=7.ct",
    ],
  },
  {
    name: "minor II-V in A minor, to a sixth chord",
    setting: { key: "Am" },
    chords: "Bm7b5 | E7 | Am6 | Am6",
    bars: [
      "D5@1=3.ct F5@1.5=5.ct E5@2=t.pa D5@2.5=3.ct C5@3=v.pa B4@3.5=1.ct A4@4=7.ct",
      "G#4@1=3.ct B4@1.5=5.ct D5@2=7.ct F5@2.5=a.ap E5@3=1.ct C5@3.5=a.ap B4@4=5.ct",
      "C5@1=3.ct E5@2=5.ct F#5@2.5=7.ct E5@3=5.ct D5@3.5=t.pa C5@4=3.ct",
      "B4@1=t.pa A4@2=1.ct G#4@2.5=t.ne A4@3=1.ct",
    ],
  },
  {
    name: "waltz in F",
    setting: { key: "F", meter: "3/4" },
    chords: "Fmaj7 | D7 | Gm7 | C7",
    bars: [
      "A4@1=3.ct C5@2=5.ct E5@2.5=7.ct D5@3=t.pa C5@3.5=5.ct",
      "F#4@1=3.ct A4@1.5=5.ct C5@2=7.ct Eb5@2.5=a.ap D5@3=1.ct",
      "Bb4@1=3.ct A4@1.5=t.ne Bb4@2=3.ct D5@2.5=5.ct F5@3=7.ct",
      "E5@1=3.ct D5@2=t.pa C5@2.5=1.ct Bb4@3=7.ct",
      "A4@1=3.ct",
    ],
  },
  {
    name: "straight eighths in D",
    setting: { key: "D" },
    chords: "Dmaj7 | Dmaj7 | Em7 | A7",
    bars: [
      "F#4@1=3.ct A4@2.5=5.ct B4@3=t.ne A4@3.5=5.ct",
      "C#5@1=7.ct B4@1.5=t.pa A4@2=5.ct G4@2.5=v.pa F#4@3=3.ct E4@4=t.es",
      "G4@1=3.ct B4@1.5=5.ct D5@2=7.ct F#5@2.5=t.ap E5@3=1.ct D5@3.5=7.ct B4@4=5.ct",
      "C#5@1=3.ct E5@1.5=5.ct G5@2=7.ct Bb5@2.5=a.ap A5@3=1.ct G5@3.5=7.ct",
      "F#5@1=3.ct",
    ],
  },
  {
    name: "pushes in G",
    setting: { key: "G" },
    chords: "Am7 | D7 | Gmaj7 | Em7",
    bars: [
      "C5@1=3.ct E5@1.5=5.ct G5@2=7.ct E5@2.5=5.ct C5@3=3.ct F#4@4.5:1.5=v.an",
      "A4@2=5.ct C5@2.5=7.ct E5@3=t.ag D5@3.5=1.ct B4@4.5=t.an",
      "B4@1=3.ct D5@2=5.ct F#5@2.5=7.ct E5@3=t.pa D5@3.5=5.ct G5@4.5:1.5=1.ct",
      "E5@2=1.ct D5@2.5=7.ct B4@3=5.ct",
    ],
  },
  {
    name: "suspensions in F, rising and falling",
    setting: { key: "F" },
    chords: "Gm7 | C7 | Fmaj7 | Bbmaj7",
    bars: [
      "Bb4@1=3.ct D5@2=5.ct F5@3:3=7.su",
      "E5@2=3.ct G5@3=5.ct Bb5@4=7.ct",
      "Bb5@1=v.su A5@2=3.ct F5@3=1.ct E5@4=7.ct",
      "E5@1=t.su F5@2=5.ct D5@3=3.ct C5@3.5=t.pa Bb4@4=1.ct",
    ],
  },
  {
    name: "enclosures in E flat",
    setting: { key: "Eb" },
    chords: "Fm7 | Bb7 | Ebmaj7 | Cm7",
    bars: [
      "C5@1=5.ct F4@1.5=1.ct Bb4@2=t.en G4@2.5=t.en Ab4@3=3.ct C5@3.5=5.ct Eb5@4=7.ct E5@4.5=o.ap",
      "F5@1=5.ct D5@1.5=3.ct Bb4@2=1.ct C5@2.5=t.pa D5@3=3.ct F5@3.5=5.ct Ab5@4=7.ct F#5@4.5=a.ap",
      "G5@1=3.ct F5@1.5=t.pa Eb5@2=1.ct C5@2.5=t.ap Bb4@3=5.ct Ab4@3.5=v.pa G4@4=3.ct",
      "G4@1=5.ct F4@2=t.en D4@2.5=t.en Eb4@3=3.ct",
    ],
  },
  {
    name: "blues in G",
    setting: { key: "G", idiom: "blues" },
    chords: "G7 | C7 | G7 | D7",
    bars: [
      "D5@1=5.ct Bb4@1.5=b.ap B4@2=3.ct G4@2.5=1.ct E4@3=t.hc G4@3.5=1.ct",
      "G4@1=5.ct Bb4@1.5=7.ct C5@2=1.ct Eb5@3=b.hc C5@3.5=1.ct Bb4@4=7.ct",
      "D5@1=5.ct Db5@1.5=b.pa C5@2=v.pa B4@2.5=3.ct G4@3=1.ct F4@4=7.ct",
      "F#4@1=3.ct A4@1.5=5.ct C5@2=7.ct E5@2.5=t.ap D5@3=1.ct C5@3.5=7.ct A4@4=5.ct",
    ],
  },
  {
    name: "tritone substitute in C",
    setting: { key: "C" },
    chords: "Dm7 | Db7 | Cmaj7 | Cmaj7",
    bars: [
      "A4@1=5.ct C5@1.5=7.ct E5@2=t.ag D5@2.5=1.ct C5@3=7.ct A4@3.5=5.ct F4@4=3.ct E4@4.5=t.ne",
      "F4@1=3.ct Ab4@1.5=5.ct Cb5@2=7.ct Eb5@2.5=t.ap Db5@3=1.ct Bb4@3.5=t.ap Ab4@4=5.ct F4@4.5=3.ct",
      "E4@1=3.ct G4@2=5.ct B4@2.5=7.ct A4@3=t.pa G4@3.5=5.ct F4@4=v.pa E4@4.5=3.ct",
      "D4@1=t.pa C4@2=1.ct",
    ],
  },
  {
    name: "passing diminished chord in F",
    setting: { key: "F" },
    chords: "Fmaj7 | F#dim7 | Gm7 | C7",
    bars: [
      "A4@1=3.ct C5@1.5=5.ct E5@2=7.ct D5@2.5=t.pa C5@3=5.ct A4@4=3.ct",
      "F#4@1=1.ct A4@1.5=3.ct C5@2=5.ct Eb5@2.5=7.ct D5@3=t.pa C5@3.5=5.ct A4@4=3.ct",
      "Bb4@1=3.ct D5@2=5.ct F5@2.5=7.ct E5@3=v.pa D5@3.5=5.ct C5@4=t.pa Bb4@4.5=3.ct",
      "G4@1=5.ct E4@2=3.ct Db5@3=a.ag C5@3.5=1.ct Bb4@4=7.ct",
    ],
  },
  {
    name: "backdoor in C",
    setting: { key: "C" },
    chords: "Fm7 | Bb7 | Cmaj7 | Am7",
    bars: [
      "Ab4@1=3.ct C5@1.5=5.ct Eb5@2=7.ct G5@2.5=t.ap F5@3=1.ct Eb5@3.5=7.ct C5@4=5.ct",
      "D5@1=3.ct E5@1.5=t.pa F5@2=5.ct D5@2.5=3.ct Bb4@3=1.ct Ab4@3.5=7.ct F4@4=5.ct G4@4.5=t.es",
      "E4@1=3.ct G4@1.5=5.ct B4@2=7.ct D5@2.5=t.ap C5@3=1.ct B4@3.5=7.ct C5@4=1.ct",
      "E5@1=5.ct F5@1.5=v.ne E5@2=5.ct C5@2.5=3.ct B4@3=t.pa A4@3.5=1.ct",
    ],
  },
  {
    name: "suspended dominant in E flat",
    setting: { key: "Eb" },
    chords: "Bb7sus4 | Bb7 | Ebmaj7 | Ebmaj7",
    bars: [
      "F4@1=5.ct Ab4@1.5=7.ct Bb4@2=1.ct C5@2.5=t.ne Bb4@3=1.ct Eb5@4=3.ct",
      "D5@1=3.ct C5@1.5=t.pa Bb4@2=1.ct Ab4@2.5=7.ct G4@3=t.pa F4@3.5=5.ct D4@4=3.ct E4@4.5=a.ap",
      "Eb4@1=1.ct G4@1.5=3.ct Bb4@2=5.ct D5@2.5=7.ct F5@3=t.ag Eb5@3.5=1.ct D5@4=7.ct Bb4@4.5=5.ct",
      "C5@1=t.ne Bb4@2=5.ct G4@3=3.ct",
    ],
  },
  {
    name: "from F to A, a chart that changes key",
    setting: { key: "F" },
    chords: "Gm7 | C7 |\nkey: A\nBm7 | E7 | Amaj7 | Amaj7",
    bars: [
      "Bb4@1=3.ct A4@1.5=t.pa G4@2=1.ct F4@2.5=7.ct D4@3=5.ct F4@3.5=7.ct",
      "E4@1=3.ct G4@1.5=5.ct Bb4@2=7.ct D5@2.5=t.ap C5@3=1.ct A4@3.5=t.ap G4@4=5.ct",
      "F#4@1=5.ct A4@1.5=7.ct B4@2=1.ct C#5@2.5=t.pa D5@3=3.ct E5@3.5=t.pa F#5@4=5.ct",
      "G#5@1=3.ct F#5@1.5=t.pa E5@2=1.ct D5@2.5=7.ct B4@3=5.ct C5@3.5=a.ne B4@4=5.ct",
      "C#5@1=3.ct A4@2=1.ct G#4@2.5=7.ct E4@3=5.ct",
    ],
  },
  {
    name: "secondary dominant in G, from a sixth chord",
    setting: { key: "G" },
    chords: "G6 | E7 | Am7 | D7",
    bars: [
      "B4@1=3.ct D5@1.5=5.ct E5@2=7.ct D5@2.5=5.ct B4@3=3.ct A4@3.5=t.en G4@4=1.en",
      "G#4@1=3.ct B4@1.5=5.ct D5@2=7.ct F5@2.5=a.ap E5@3=1.ct D5@3.5=7.ct B4@4=5.ct",
      "C5@1=3.ct B4@1.5=t.pa A4@2=1.ct G4@2.5=7.ct E4@3=5.ct D#4@3.5=o.ne E4@4=5.ct",
      "F#4@1=3.ct A4@1.5=5.ct C5@2=7.ct B4@2.5=t.pa A4@3=5.ct F#4@4=3.ct",
      "G4@1=1.ct",
    ],
  },
  {
    name: "five four in D minor",
    setting: { key: "Dm", meter: "5/4" },
    chords: "Dm7 | Em7b5 | A7 | Dm7",
    bars: [
      "D4@1=1.ct F4@1.5=3.ct A4@2=5.ct G4@2.5=t.pa F4@3=3.ct E4@3.5=t.pa D4@4=1.ct",
      "G4@1=3.ct Bb4@2=5.ct A4@2.5=t.pa G4@3=3.ct E4@4=1.ct",
      "C#5@1=3.ct E5@1.5=5.ct G5@2=7.ct Bb5@2.5=a.ap A5@3=1.ct G5@3.5=7.ct F5@4=a.pa E5@4.5=5.ct",
      "D5@1=1.ct C5@2=7.ct A4@2.5=5.ct F4@3=3.ct E4@3.5=t.ne F4@4=3.ct",
    ],
  },
];
