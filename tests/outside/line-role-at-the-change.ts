/** Examples of the line roles made by a change of chord: what is one, and what only looks like one. */
import type { RuleExamples } from "./line-role-example.ts";

export const AT_THE_CHANGE: readonly RuleExamples[] = [
  {
    role: "anticipation",
    source: "Kostka & Payne [memory]; the eighth-note push of swing [practice]",
    is: [
      {
        why: "the cadence: tonic struck early",
        text: "G7 | C // D4@4 *C4@4.5 | C4@1",
        to: "C4",
        manner: "repeated",
      },
      {
        why: "an eighth early and held over the bar line",
        text: "Cm7 | F7 // G4@4 *A4@4.5:1.5 | G4@2.5",
        setting: { key: "Bb" },
        to: null,
        manner: "held",
      },
      { why: "on the last triplet", text: "G7 | C // G4@4 *E4@4.667:0.333 | G4@2", manner: "struck" },
      {
        why: "the form goes round: the next chord is the first",
        text: "C | G7 // C4@1 | D4@4 *C4@4.5:0.5 | E4@2",
        manner: "struck",
      },
      {
        why: "struck twice before the change",
        text: "G7 | C // G4@4 *C4@4.5 C4@4.75 | C4@1",
        to: "C4",
        manner: "repeated",
      },
      { why: "a change in the middle of the bar", text: "Dm7 G7 // F4@2 *B3@2.5 G3@4" },
      {
        why: "in a later chorus of a form of three chords",
        text: "Dm7 | G7 | C // F4@1 | G4@1 | E4@1 | F4@1 | D4@4 *C4@4.5:0.5 | E4@3",
        manner: "struck",
      },
      { why: "the last eighth of 6/8", text: "G7 | C // D4@5 *C4@6 | C4@1", setting: { meter: "6/8" } },
      { why: "an enclosing note too is heard as early first", text: "G7 | C // F4@3 B3@4 *C4@4.5:1 | E4@2" },
      {
        why: "in rubato: struck again as the next chord begins",
        text: "G7 | C // D4@3 *C4@3.5 | C4@1",
        setting: { rubato: true },
      },
      {
        why: "in rubato: held over the change that the other hand plays",
        text: "G7 | C // D4@3 *C4@3.5:3 | <C2@1 G4@3",
        setting: { rubato: true },
        manner: "held",
      },
    ],
    isNot: [
      { why: "a line that runs on to another note", text: "G7 | C // D4@4 *C4@4.5 | E4@1", role: "escape" },
      {
        why: "in the middle of a scale",
        text: "Cm7 | F7 // Eb4@3.5 F4@4 *F#4@4.25 A4@4.5 | A4@1",
        role: "escape",
        setting: { key: "Bb" },
      },
      {
        why: "a step of a run that goes through the change",
        text: "F7 | Bbmaj7 // F5@3 Eb5@3.5 C5@4 *D5@4.5 | C5@1 Bb4@1.5",
        role: "neighbour",
        setting: { key: "Bb" },
      },
      {
        why: "the next note comes just after the change",
        text: "G7 | C // G4@4 *C4@4.5 | G4@1.25",
        role: "free",
      },
      {
        why: "a whole beat before the change is too early",
        text: "G7 | Cmaj7 // D4@3 *C4@4 | B3@1",
        role: "passing",
      },
      {
        why: "it belongs to the chord that sounds already",
        text: "G7 | C // *G4@4.5 | G4@1",
        role: "chord tone",
      },
      {
        why: "it is foreign to the next chord too",
        text: "G7 | C // G4@4 *A4@4.5 | G4@1",
        role: "neighbour",
      },
      {
        why: "three sixteenths before the change is too early",
        text: "G7 | C // D4@4 *C4@4.25 | G4@1",
        role: "escape",
      },
      { why: "the chord does not change", text: "C | C // C4@4 *D4@4.5 | E4@1", role: "passing" },
      { why: "no chord follows", text: "G7 | N.C. // G4@4 *C4@4.5 | C4@1", role: "free" },
      {
        why: "in rubato: left before the chord changes",
        text: "G7 | C // G4@3 *C4@3.5 | <C2@1 G4@3",
        role: "free",
        setting: { rubato: true },
      },
    ],
  },
  {
    role: "suspension",
    source: "Kostka & Payne [memory]",
    is: [
      {
        why: "4-3, the preparation struck again",
        text: "G7 | C // F4@4 | *F4@1 E4@2",
        to: "E4",
        manner: "repeated",
      },
      { why: "4-3, the preparation tied over", text: "G7 | C // *F4@3:3 | E4@2", to: "E4", manner: "held" },
      { why: "9-8", text: "G | C // D5@4 | *D5@1 C5@2", to: "C5" },
      { why: "upwards, a retardation", text: "G7 | C // B3@4 | *B3@1 C4@2", to: "C4" },
      { why: "from the last chord of the form into the first", text: "C | G7 // C4@1 | F4@4 | *F4@1 E4@2" },
      {
        why: "the resolution comes when the bar, not the chord, has changed",
        text: "G7 | C | C // *F4@1:8 | | E4@1",
        to: "E4",
        manner: "held",
      },
      { why: "held just half a beat into the new chord", text: "Dm7 | G7 // *C4@4:1.5 | B3@1.5", to: "B3" },
      { why: "struck twice before it resolves", text: "G7 | C // F4@4 | F4@1 *F4@2 E4@3", to: "E4" },
      { why: "in rubato, repeated", text: "G7 | C // F4@4 | *F4@1 E4@2", setting: { rubato: true } },
      {
        why: "in rubato, held over the other hand's new chord",
        text: "G7 | C // *F4@3:3 | <C2@1 E4@2",
        setting: { rubato: true },
        manner: "held",
      },
      {
        why: "in rubato, held into it for a quarter of a second",
        text: "G7 | C // *F4@3:2.5 | <C2@1 E4@2",
        setting: { rubato: true, tempo: 120 },
        manner: "held",
      },
      {
        why: "in rubato, the other hand strikes the old chord once more before the new one",
        text: "G7 | C // *F4@3:3 <G2@4 | <C2@1 E4@2",
        setting: { rubato: true },
        manner: "held",
      },
    ],
    isNot: [
      { why: "not prepared: an appoggiatura", text: "G7 | C // B3@4 | *F4@1 E4@2", role: "appoggiatura" },
      { why: "left by leap", text: "G7 | C // F4@4 | *F4@1 C4@2", role: "free" },
      {
        why: "a rest lies between the preparation and it",
        text: "G7 | C // F4@3:1 | *F4@1 E4@2",
        role: "appoggiatura",
      },
      {
        why: "the blue third after a beat of rest",
        text: "F7 | C7 // Eb5@3:1 | *Eb5@1 E5@2",
        role: "approach",
        setting: { idiom: "blues" },
      },
      {
        why: "prepared in the same chord, where it was foreign already",
        text: "C // G4@2 F4@3 *F4@3.5 E4@4",
        role: "passing",
      },
      {
        why: "a legato overlap of a sixteenth is none",
        text: "Dm7 | G7 // *C4@4:1.25 | B3@1",
        role: "chord tone",
      },
      { why: "held into a chord that it belongs to", text: "Am7 | C // *C4@4:2 | D4@2", role: "chord tone" },
      {
        why: "resolves only two chords later",
        text: "G7 | C | Am // *F4@1:8 | | E4@1",
        role: "chord tone",
      },
      {
        why: "held from two chords before, foreign to the one between",
        text: "G7 | Am7 | C // F4@4:4 | | *F4@1 E4@2",
        role: "appoggiatura",
      },
      {
        why: "in rubato, left as the chord changes",
        text: "G7 | C // *F4@3:2.4 | <C2@1 E4@2",
        setting: { rubato: true },
        role: "chord tone",
      },
      {
        why: "in rubato, held over a new note of the same chord only",
        text: "G7 | C // *F4@3:2 <G2@4 | E4@2",
        setting: { rubato: true },
        role: "chord tone",
      },
      {
        why: "prepared two chords before",
        text: "G7 | Am7 | C // F4@4 | E4@1 F4@4 | *F4@1 E4@2",
        role: "neighbour",
      },
    ],
  },
];
