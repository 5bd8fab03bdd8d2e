/** Examples of the line roles told by how a foreign note is reached and left: what is one, and what only looks like one. */
import type { RuleExamples } from "./line-role-example.ts";

export const BY_STEP: readonly RuleExamples[] = [
  {
    role: "passing",
    source: "Kostka & Payne [memory]",
    is: [
      { why: "between two chord tones", text: "C // C4@1 *D4@1.5 E4@2", to: "E4", manner: "diatonic" },
      { why: "a half step, then a whole step", text: "C // E4@1 *F4@1.5 G4@2", to: "G4", manner: "diatonic" },
      { why: "a whole step, then a half step", text: "C // G4@1 *F4@1.5 E4@2", to: "E4", manner: "diatonic" },
      { why: "in a run that breaks off before a chord tone", text: "C // G4@1 *A4@1.5 B4@2", to: "B4" },
      { why: "on a stronger place (accented)", text: "C // E4@1.5 *D4@2 C4@2.5", to: "C4" },
      {
        why: "in a chromatic run, on the way to the next chord tone",
        text: "C // C4@1 *C#4@1.5 D4@2 D#4@2.5 E4@3",
        to: "E4",
        manner: "chromatic",
      },
      { why: "struck twice", text: "C // G4@1 F4@1.5 *F4@2 E4@2.5", to: "E4" },
      { why: "struck twice, the first time", text: "C // G4@1 *F4@1.5 F4@2 E4@2.5", to: "E4" },
      { why: "struck three times, the first time", text: "C // G4@1 *F4@1.5 F4@2 F4@2.5 E4@3", to: "E4" },
      { why: "over the bar line", text: "C | Am // G4@4 *F4@4.5 | E4@1", to: "E4" },
      {
        why: "over the augmented second of harmonic minor",
        text: "E7 | Am // E4@1 *F4@1.5 G#4@2",
        to: "G#4",
        setting: { key: "Am" },
      },
      {
        why: "the same downwards",
        text: "E7 | Am // G#4@1 *F4@1.5 E4@2",
        to: "E4",
        setting: { key: "Am" },
      },
      {
        why: "a run that turns before it reaches a chord tone leads to its next note",
        text: "C // G4@1 *A4@1.5 B4@2 A4@2.5",
        to: "B4",
      },
    ],
    isNot: [
      { why: "a chord tone in a run", text: "C7 // A4@1 *Bb4@1.5 C5@2", role: "chord tone" },
      { why: "left by leap", text: "C // E4@1 *F4@1.5 C4@2", role: "escape" },
      { why: "it turns back", text: "C // C4@1 *D4@1.5 C4@2", role: "neighbour" },
      { why: "leapt to", text: "C // G4@1 *D4@1.5 E4@2", role: "approach" },
      { why: "after a breath nothing leads to it", text: "C // C4@1:0.5 *D4@4 E4@4.5", role: "appoggiatura" },
    ],
  },
  {
    role: "neighbour",
    source: "Kostka & Payne [memory]",
    is: [
      { why: "upper", text: "C // E4@1 *F4@1.5 E4@2", to: "E4", manner: "upper" },
      { why: "lower and chromatic", text: "C // G4@1 *F#4@1.5 G4@2", to: "G4", manner: "lower" },
      { why: "over a change of chord", text: "C | Am // E4@4 *D4@4.5 | E4@1", to: "E4", manner: "lower" },
      { why: "struck twice", text: "C // E4@1 F4@1.5 *F4@2 E4@2.5", to: "E4" },
      {
        why: "half of a turn to both sides",
        text: "C // C4@1 *D4@1.5 B3@2 C4@2.5",
        to: "C4",
        manner: "double neighbour",
      },
      {
        why: "the other half of it",
        text: "C // C4@1 D4@1.5 *B3@2 C4@2.5",
        to: "C4",
        manner: "double neighbour",
      },
    ],
    isNot: [
      { why: "another octave is another pitch", text: "C // E4@1 *F4@1.5 E5@2", role: "escape" },
      {
        why: "the sixth of a sixth chord is a chord tone",
        text: "C6 // G4@1 *A4@1.5 G4@2",
        role: "chord tone",
      },
      { why: "it goes on in the same direction", text: "C // E4@1 *F4@1.5 G4@2", role: "passing" },
      { why: "there and back by leap", text: "C // C4@1 *F4@1.5 C4@2", role: "free" },
    ],
  },
  {
    role: "appoggiatura",
    source: "Kostka & Payne [memory]",
    is: [
      { why: "leap up, step down, on beat 3", text: "C // C4@2 *F4@3 E4@3.5", to: "E4", manner: null },
      { why: "after more than one note", text: "C // E4@1 C4@2 *F4@3 E4@3.5", to: "E4", manner: null },
      { why: "the sixth sinking to the fifth", text: "C // C4@2 *A4@3 G4@3.5", to: "G4" },
      { why: "chromatic, on the bar's first beat", text: "C | C // G4@4 | *D#4@1 E4@2", to: "E4" },
      { why: "into a new chord", text: "Dm7 | G7 // F4@4 | *C5@1 B4@2", to: "B4" },
      { why: "a phrase that begins on it", text: "C // *F4@1 E4@2", to: "E4", manner: "unprepared" },
      {
        why: "in rubato the longer note is the stronger",
        text: "C // C4@2 *F4@3:1 E4@4:0.5",
        setting: { rubato: true },
      },
    ],
    isNot: [
      { why: "on a weaker place it is an approach", text: "C // C4@1 *F4@1.5 E4@2", role: "approach" },
      { why: "stepped to, then turned by a whole step", text: "C // F4@2.5 *F#4@3 E4@3.5", role: "free" },
      { why: "stepped to: accented passing", text: "C // G4@2.5 *F4@3 E4@3.5", role: "passing" },
      { why: "left by leap", text: "C // C4@2 *A4@3 E4@3.5", role: "held colour" },
      { why: "no chord tone follows", text: "C // C4@2 *A4@3 B4@3.5", role: "free" },
      { why: "a chord tone itself", text: "C // C4@2 *E4@3 D4@3.5", role: "chord tone" },
    ],
  },
  {
    role: "escape",
    source: "Kostka & Payne [memory]",
    is: [
      { why: "step up, leap down", text: "C // E4@1 *F4@1.5 C4@2", to: null },
      { why: "the ninth's sixth, G7", text: "G7 // D5@1 *E5@1.5 B4@2" },
      { why: "step down, leap up", text: "C // G4@1 *F4@1.5 C5@2" },
      { why: "step and leap the same way", text: "C // C4@1 *D4@1.5 G4@2" },
    ],
    isNot: [
      {
        why: "longer and stronger than the note before it: the line comes to rest on it",
        text: "Dm7 | Dm7 // D5@4 | *E5@1:2 C5@3",
        role: "held colour",
      },
      { why: "a chord tone", text: "C // F4@1 *E4@1.5 C4@2", role: "chord tone" },
      { why: "leapt to", text: "C // G4@1 *D4@1.5 G4@2", role: "held colour" },
      { why: "left by step", text: "C // E4@1 *F4@1.5 G4@2", role: "passing" },
      { why: "a breath follows: it is not left at all", text: "C // E4@1 *F4@1.5:0.5 | C4@2", role: "free" },
    ],
  },
];
