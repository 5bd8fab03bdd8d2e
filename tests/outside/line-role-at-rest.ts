/** Examples of the line roles of notes that lead nowhere: what is one, and what only looks like one. */
import { BLUES, type RuleExamples } from "./line-role-example.ts";

export const AT_REST: readonly RuleExamples[] = [
  {
    role: "chord tone",
    source: "Kostka & Payne [memory]; stand-ins of sixth and suspended chords: Levine [memory]",
    is: [
      { why: "root", text: "C7 // G4@1 *C5@2" },
      { why: "seventh", text: "C7 // G4@1 *Bb4@2" },
      { why: "the sixth on a sixth chord", text: "C6 // E4@1 *A4@2" },
      { why: "the fourth on a suspended chord", text: "G7sus4 // G4@1 *C5@2" },
      { why: "the tonic triad where no chord sounds", text: "N.C. // G4@1 *E5@2" },
      { why: "although it moves on by step", text: "Cmaj7 // *B4@1 C5@2" },
    ],
    isNot: [
      { why: "a tension that the symbol names is a colour", text: "C9 // G4@1 *D5@2", role: "held colour" },
      { why: "the third of a suspended chord", text: "G7sus4 // G4@1 *B4@2", role: "free" },
      { why: "the blue third", text: "C7 // G4@1 *Eb5@2", role: "held colour", setting: BLUES },
      { why: "the natural third over a minor chord", text: "Cm7 // G4@1 *E5@2", role: "free" },
    ],
  },
  {
    role: "held colour",
    source: "tensions as colours: Nettles & Graf [memory]; blue notes [practice]",
    is: [
      { why: "a ninth left by leap", text: "C // G4@1 *D4@1.5 G4@2" },
      { why: "a blue third left by leap", text: "C7 // G4@1 *Eb4@1.5 C4@2", setting: BLUES },
      { why: "the last note of the solo", text: "Cmaj7 // G4@1 *D5@2" },
      { why: "a breath follows", text: "Cmaj7 | Cmaj7 // G4@1 *D5@2 | C5@2" },
      {
        why: "a sharp eleventh over the tritone substitute",
        text: "Dm7 | Db7 | Cmaj7 // A4@1 | *G4@1 B4@3 | C5@1",
      },
    ],
    isNot: [
      { why: "an avoid note is no colour", text: "C // C4@1 *F4@1.5 C4@2", role: "free" },
      { why: "it moves by step to a chord tone", text: "C // G4@1 *D4@1.5 C4@2", role: "approach" },
      { why: "it moves by step to another colour", text: "C // C4@2 *A4@3 B4@3.5", role: "free" },
      { why: "a chord tone", text: "Cmaj7 // D5@1 *G4@2", role: "chord tone" },
      { why: "outside the chord", text: "C // G4@1 *C#4@1.5 G4@2", role: "free" },
    ],
  },
  {
    role: "free",
    source: "what remains [practice]",
    is: [
      { why: "an avoid note between leaps", text: "C // C4@1 *F4@1.5 C4@2" },
      { why: "outside the chord between leaps", text: "C // G4@1 *C#4@1.5 G4@2" },
      { why: "a colour that moves to another colour", text: "C // C4@2 *A4@3 B4@3.5" },
      { why: "an avoid note that ends the phrase", text: "C // C4@1 *F4@2" },
    ],
    isNot: [
      { why: "a chord tone", text: "C // C4@1 *G4@2", role: "chord tone" },
      { why: "a colour", text: "C // C4@1 *A4@2", role: "held colour" },
      { why: "outside, but it leads", text: "C // G4@1 *C#4@1.5 C4@2", role: "approach" },
    ],
  },
];
