/**
 * Ten short solos over as many kinds of changes, every note labelled by hand from the definitions before anything was
 * run on them; sources and signs as in `student-solos.ts`. On the first run 246 of 249 line roles and all harmonic roles
 * and spellings agreed; one label was a slip against the definitions (an augmented second is a step) and is put right.
 */
import type { StudentSolo } from "./student-solos.ts";

export const SHORT_SOLOS: readonly StudentSolo[] = [
  {
    name: "minor blues in C minor",
    setting: { key: "Cm", idiom: "blues" },
    chords: "Cm7 | Fm7 | Cm7 | Cm7 | Fm7 | Fm7 | Cm7 | Cm7 | Ab7 | G7 | Cm7 | G7",
    bars: [
      "G4@1=5.ct Bb4@1.5=7.ct C5@2=1.ct Eb5@2.5=3.ct D5@3=t.pa C5@3.5=1.ct Bb4@4=7.ct G4@4.5=5.ct",
      "Ab4@1=3.ct G4@1.5=t.ne Ab4@2=3.ct C5@2.5=5.ct Eb5@3=7.ct F5@3.5=1.ct",
      "F#4@1.5=b.ap G4@2=5.ct Bb4@2.5=7.ct G4@3=5.ct Gb4@3.5=b.pa F4@4=t.pa Eb4@4.5=3.ct",
      "C4@1=1.ct",
      "C5@2=5.ct Db5@2.5=o.ne C5@3=5.ct Ab4@3.5=3.ct F4@4=1.ct",
      "Eb4@1=7.ct F4@2=1.ct G4@4.5:1.5=t.an",
      "Eb4@3=3.ct C4@4=1.ct",
    ],
  },
  {
    name: "waltz in G",
    setting: { key: "G", meter: "3/4" },
    chords: "Gmaj7 | Em7 | Am7 | D7",
    bars: [
      "B4@1=3.ct D5@2=5.ct C5@2.5=v.pa B4@3=3.ct A4@3.5=t.pa",
      "G4@1=3.ct F#4@1.5=t.ne G4@2=3.ct B4@2.5=5.ct D5@3=7.ct",
      "C5@1=3.ct B4@1.5=t.pa A4@2=1.ct G4@2.5=7.ct F#4@3=v.pa E4@3.5=5.ct",
      "F#4@1=3.ct A4@1.5=5.ct C5@2=7.ct Eb5@2.5=a.ap D5@3=1.ct",
      "D5@1=5.ct",
    ],
  },
  {
    name: "straight eighths in A minor",
    setting: { key: "Am" },
    chords: "Am7 | Dm7 | Bm7b5 | E7",
    bars: [
      "E4@1=5.ct A4@1.5=1.ct C5@2=3.ct B4@2.5=t.ne C5@3=3.ct E5@3.5=5.ct D5@4.5:1.5=t.an",
      "F5@2=3.ct E5@2.5=t.pa D5@3=1.ct C5@3.5=7.ct A4@4=5.ct",
      "B4@1=1.ct D5@1.5=3.ct F5@2=5.ct A5@2.5=7.ct G5@3=t.pa F5@3.5=5.ct E5@4=t.pa D5@4.5=3.ct",
      "G#4@1=3.ct B4@1.5=5.ct D5@2=7.ct F5@2.5=a.hc B4@3=5.ct A4@3.5=v.pa G#4@4=3.ct",
      "A4@1=1.ct",
    ],
  },
  {
    name: "a bridge of dominants in B flat",
    setting: { key: "Bb" },
    chords: "D7 | D7 | G7 | G7 | C7 | C7 | F7 | F7",
    bars: [
      "F#4@1=3.ct E4@1.5=t.pa D4@2=1.ct E4@2.5=t.pa F#4@3=3.ct A4@3.5=5.ct C5@4=7.ct A4@4.5=5.ct",
      "",
      "B4@1=3.ct D5@1.5=5.ct F5@2=7.ct A5@2.5=t.hc F5@3=7.ct D5@3.5=5.ct",
      "",
      "E5@1=3.ct G4@2=5.ct Bb4@2.5=7.ct D5@3=t.ag C5@3.5=1.ct",
      "",
      "C5@1=5.ct A4@1.5=3.ct Gb4@2=a.ap F4@2.5=1.ct Eb4@3=7.ct",
    ],
  },
  {
    name: "six eighths in C",
    setting: { key: "C", meter: "6/8" },
    chords: "C | F | G7 | C",
    bars: [
      "G4@1=5.ct C5@2=1.ct D5@3=t.pa E5@4=3.ct F5@5=v.pa G5@6=5.ct",
      "A5@1=3.ct G5@2=t.pa F5@3=1.ct E5@4=t.pa D5@5=t.pa C5@6=5.ct",
      "B4@1=3.ct C5@2=v.ne B4@3=3.ct D5@4=5.ct F5@5=7.ct D#5@6=a.ap",
      "E5@1=3.ct C5@4=1.ct",
    ],
  },
  {
    name: "enclosures in F",
    setting: { key: "F" },
    chords: "Gm7 | C7 | Fmaj7 | Fmaj7",
    bars: [
      "D5@1=5.ct C5@1.5=t.pa Bb4@2=3.ct A4@2.5=t.pa G4@3=1.ct F4@3.5=7.ct D4@4=5.ct",
      "E4@1=3.ct G4@1.5=5.ct Bb4@2=7.ct Db5@2.5=a.ap C5@3=1.ct C5@3.5=1.ct Bb4@4=7.en G#4@4.5=a.en",
      "A4@1=3.ct C5@1.5=5.ct E5@2=7.ct G5@2.5=t.hc E5@3=7.ct C5@3.5=5.ct Bb4@4=v.en G#4@4.5=o.en",
      "A4@1=3.ct G4@2=t.en E4@2.5=7.en F4@3=1.ct",
    ],
  },
  {
    name: "suspensions in E flat",
    setting: { key: "Eb" },
    chords: "Fm7 | Bb7 | Ebmaj7 | Abmaj7",
    bars: [
      "Ab4@1=3.ct C5@2=5.ct Eb5@3:3=7.su",
      "D5@2=3.ct F5@2.5=5.ct Ab5@3=7.ct F5@3.5=5.ct D5@4=3.ct Ab4@4.5=7.ct",
      "Ab4@1=v.su G4@2=3.ct Bb4@2.5=5.ct D5@3=7.ct C5@3.5=t.ne D5@4=7.ct Bb4@4.5=5.ct",
      "C5@1=3.ct D5@1.5=t.pa Eb5@2=5.ct D5@2.5=t.ne Eb5@3=5.ct G5@4=7.ct",
    ],
  },
  {
    name: "blues in B flat",
    setting: { key: "Bb", idiom: "blues" },
    chords: "Bb7 | Eb7 | Bb7 | Bb7",
    bars: [
      "Db4@1.5=b.ap D4@2=3.ct F4@2.5=5.ct G4@3=t.es Bb4@3.5=1.ct Ab4@4=7.ct F4@4.5=5.ct",
      "G4@1=3.ct Bb4@1.5=5.ct Db5@2=7.ct C5@2.5=t.pa Bb4@3=5.ct Gb4@3.5=b.ap G4@4=3.ct Eb4@4.5=1.ct",
      "F4@1=5.ct E4@1.5=b.pa Eb4@2=v.pa D4@2.5=3.ct Bb3@3=1.ct",
      "Db5@1=b.hc Bb4@2=1.ct Db5@2.5=b.hc Bb4@3=1.ct Ab4@3.5=7.ct",
    ],
  },
  {
    name: "a vamp in D minor",
    setting: { key: "Dm" },
    chords: "Dm7 | Dm7 | Dm7 | Dm7",
    bars: [
      "A4@1=5.ct G4@1.5=t.pa F4@2=3.ct D4@2.5=1.ct C4@3=7.ct D4@3.5=1.ct",
      "C#5@1=o.ag D5@1.5=1.ct F5@2=3.ct E5@2.5=t.pa Eb5@3=o.ap D5@3.5=1.ct",
      "A4@1=5.ct Ab4@1.5=o.es F4@2=3.ct D4@3=1.ct",
      "G4@1=t.hc C5@2=7.ct A4@2.5=5.ct D5@3=1.ct",
    ],
  },
  {
    name: "ballad in D flat",
    setting: { key: "Db" },
    chords: "Ebm7 | Ab7 | Dbmaj7 | Bb7",
    bars: [
      "Gb4@1=3.ct Bb4@2=5.ct Db5@2.5=7.ct F5@3=t.ag Eb5@3.5=1.ct Db5@4=7.ct Bb4@4.5=5.ct",
      "C5@1=3.ct Eb5@1.5=5.ct Gb5@2=7.ct A5@2.5=a.ap Ab5@3=1.ct Gb5@3.5=7.ct Eb5@4=5.ct C5@4.5=3.ct",
      "F5@1=3.ct Eb5@1.5=t.pa Db5@2=1.ct C5@2.5=7.ct Ab4@3=5.ct Bb4@3.5=t.ne Ab4@4=5.ct",
      "D5@1=3.ct F5@1.5=5.ct Ab5@2=7.ct Gb5@2.5=a.pa F5@3=5.ct D5@4=3.ct",
      "Eb5@1=1.ct",
    ],
  },
];
