/** Two ways of saying the same of a note, so that a page of sentences does not sound like one: both in good English. */
import { describe, expect, it } from "vitest";
import { type Setting, said } from "./notation.ts";

/** The two ways of saying the same: what is said in one chorus, and in the next. */
const WAYS: readonly (readonly [string, string, string, Setting?])[] = [
  [
    "C // G4@1 *Ab4@1.5 G4@2",
    "A flat on the and of 1: a flat thirteenth foreign to C, a step above the fifth and back.",
    "A flat on the and of 1: a flat thirteenth foreign to C, an upper neighbour that falls back to the fifth.",
  ],
  [
    "C // G4@1 *F#4@1.5 G4@2",
    "F sharp on the and of 1: a sharp eleventh foreign to C, a step below the fifth and back.",
    "F sharp on the and of 1: a sharp eleventh foreign to C, a lower neighbour that returns to the fifth.",
  ],
  [
    "C // C5@1 *F4@1.5 E4@2",
    "F on the and of 1: the fourth of C, stepping down into the third.",
    "F on the and of 1: the fourth of C, leading down to the third.",
  ],
  [
    "C // G4@1 *D4@1.5 D#4@2 E4@2.5",
    "D on the and of 1: the ninth of C, led up by half steps to the third.",
    "D on the and of 1: the ninth of C, the first of two half steps up to the third.",
  ],
  [
    "C // E4@1 *A4@1.5 B4@2 C5@2.5",
    "A on the and of 1: the sixth of C, the first of two scale steps up to the root.",
    "A on the and of 1: the sixth of C, the first of two scale steps up to the root.",
  ],
  [
    "C // C5@1 *Ab4@1.5 G4@2",
    "A flat on the and of 1: a flat thirteenth foreign to C, falling a half step into the fifth.",
    "A flat on the and of 1: a flat thirteenth foreign to C, pulled down into the fifth.",
  ],
  [
    "G7 | C // D4@4 *C4@4.5 | C4@1",
    "C on the and of 4: the fourth of G7, an anticipation of the root of C, struck again when the chord arrives.",
    "C on the and of 4: the fourth of G7, already the root of the C to come, struck again when the chord arrives.",
  ],
  [
    "G7 | C // D4@4 *C4@4.5:0.5 | E4@2",
    "C on the and of 4: the fourth of G7, an anticipation of the root of C.",
    "C on the and of 4: the fourth of G7, already the root of the C to come.",
  ],
  [
    "G7 | C // *F4@3:3 | E4@2",
    "F on beat 3: the seventh of G7, a suspension that gives way to the third of C.",
    "F on beat 3: the seventh of G7, held over the change and resolved down to the third of C.",
  ],
  [
    "G7 | C // F4@4 | *F4@1 E4@2",
    "F on beat 1: the fourth of C, carried over from the chord before and resolved down to the third.",
    "F on beat 1: the fourth of C, struck again over the new chord, then resolved down to the third.",
  ],
  [
    "G7 | C // *F4@4 D#4@4.5 | E4@1",
    "F on beat 4: the seventh of G7, the upper side of an enclosure of the third of C.",
    "F on beat 4: the seventh of G7, enclosing the third of C from above.",
  ],
  [
    "G7 | C // F#4@4 *D4@4.5 | E4@1",
    "D on the and of 4: the fifth of G7, the lower side of an enclosure of the third of C.",
    "D on the and of 4: the fifth of G7, enclosing the third of C from below.",
  ],
  [
    "C // C4@1 *D4@1.5 B3@2 C4@2.5",
    "D on the and of 1: the ninth of C, the upper half of a double neighbour around the root.",
    "D on the and of 1: the ninth of C, the upper half of a double neighbour around the root.",
  ],
  [
    "C // C4@1 *D4@1.5 E4@2",
    "D on the and of 1: the ninth of C, a step on the way up to the third.",
    "D on the and of 1: the ninth of C, passing up to the third.",
  ],
  [
    "C // C4@1 *C#4@1.5 D4@2 D#4@2.5 E4@3",
    "C sharp on the and of 1: foreign to C, a half step above the root, passing by half steps up to the third.",
    "C sharp on the and of 1: foreign to C, a half step above the root, a chromatic step on the way up to the third.",
  ],
  [
    "C // C4@2 *F4@3 E4@3.5",
    "F on beat 3: the fourth of C, a half step above the third, an appoggiatura that settles down onto the third.",
    "F on beat 3: the fourth of C, a half step above the third, leaned on before it resolves down to the third.",
  ],
  [
    "C // E4@1 *F4@1.5 C4@2",
    "F on the and of 1: the fourth of C, reached by step and left by leap.",
    "F on the and of 1: the fourth of C, an escape tone that steps out and leaps away.",
  ],
  [
    "C7 // G4@1 *Eb4@1.5 C4@2",
    "E flat on the and of 1: the blue third of C7, left blue, with no step to resolve it.",
    "E flat on the and of 1: the blue third of C7, kept as a blue note in its own right.",
    { idiom: "blues" },
  ],
  [
    "Cmaj7 // G4@1 *D5@2",
    "D on beat 2: the ninth of Cmaj7, a colour for its own sake.",
    "D on beat 2: the ninth of Cmaj7, a colour that needs no resolution.",
  ],
  [
    "C // C4@1 *F4@2",
    "F on beat 2: the fourth of C, a half step above the third, with no step to release it.",
    "F on beat 2: the fourth of C, a half step above the third, left unresolved.",
  ],
  [
    "C // G4@1 *C#4@1.5 G4@2",
    "C sharp on the and of 1: outside C, a half step above the root, neither prepared nor resolved.",
    "C sharp on the and of 1: outside C, a half step above the root, left hanging.",
  ],
  [
    "C // C4@2 *A4@3 B4@3.5",
    "A on beat 3: the sixth of C, on its way to another colour.",
    "A on beat 3: the sixth of C, moving on by step without coming to rest.",
  ],
  [
    "Dm7 | G7 // A4@1 | *B4@1",
    "B on beat 1: the third of G7, a guide tone just as the chord arrives.",
    "B on beat 1: the third of G7, which spells out the change.",
  ],
  [
    "Cm7 // C5@2 *A4@3 C5@4",
    "A on beat 3: the thirteenth of Cm7, which gives the dominant away, with no step to release it.",
    "A on beat 3: the thirteenth of Cm7, which gives the dominant away, left unresolved.",
    { key: "Bb" },
  ],
  [
    "Em7 // B4@2 *F4@3 B4@4",
    "F on beat 3: the flat ninth of Em7, a half step above the root, with no step to release it.",
    "F on beat 3: the flat ninth of Em7, a half step above the root, left unresolved.",
    { key: "C" },
  ],
  [
    "Em7 // B4@2 *C5@3 G4@4",
    "C on beat 3: the flat thirteenth of Em7, reached by step and left by leap.",
    "C on beat 3: the flat thirteenth of Em7, an escape tone that steps out and leaps away.",
    { key: "C" },
  ],
  [
    "G7sus4 // G4@1 *B4@2",
    "B on beat 2: the third of G7sus4, which the suspended fourth keeps out, with no step to release it.",
    "B on beat 2: the third of G7sus4, which the suspended fourth keeps out, left unresolved.",
  ],
  [
    "Bm7b5 | E7 // B4@1 *C5@2 F4@3",
    "C on beat 2: the flat ninth of Bm7b5, reached by step and left by leap.",
    "C on beat 2: the flat ninth of Bm7b5, an escape tone that steps out and leaps away.",
    { key: "Am" },
  ],
  [
    "C // C5@2 *D4@3 E4@3.5",
    "D on beat 3: the ninth of C, leaned on before it resolves up to the third.",
    "D on beat 3: the ninth of C, an appoggiatura that rises onto the third.",
  ],
  [
    "C // E4@1 *D4@1.5 C#4@2 B3@2.5",
    "D on the and of 1: the ninth of C, a step on the way down to C sharp.",
    "D on the and of 1: the ninth of C, passing down to C sharp.",
  ],
];

describe("the sentence for a note, in one chorus and in the next", () => {
  it.each(WAYS.map(([text, first, second, setting]) => ({ text, first, second, setting })))(
    "$text: $first / $second",
    (row) => {
      expect(said(row.text, row.setting)).toBe(row.first);
      expect(said(row.text, { ...row.setting, later: 1 })).toBe(row.second);
    },
  );
});
