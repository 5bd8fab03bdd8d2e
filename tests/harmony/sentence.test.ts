/** What is said of a note: one sentence, in good English, that says what is so. */
import { describe, expect, it } from "vitest";
import { type Setting, said } from "./notation.ts";

const BLUES: Setting = { idiom: "blues" };

type Asked = Parameters<typeof said>[1];

const ROWS: readonly (readonly [string, string, Asked?])[] = [
  [
    "C7 // G3@2 *Eb4@2.5 E4@3",
    "E flat on the and of 2: the blue third of C7, pushed up into the third.",
    BLUES,
  ],
  [
    "C7 // G3@2 *Eb4@2.5 E4@3",
    "E flat: the blue third of C7, rising a half step into the third.",
    { ...BLUES, rubato: true },
  ],
  [
    "C7 // G3@2 *Eb4@2.5 E4@3",
    "E flat on the and of 2, finger 4: the blue third of C7, pushed up into the third.",
    { ...BLUES, finger: 4 },
  ],
  [
    "C7 // G3@2 *Eb4@2.5 E4@3",
    "E flat on the and of 2: the blue third of C7, slid up into the third with the fourth finger.",
    { ...BLUES, finger: 4, slide: true },
  ],
  [
    "C7 // G3@2 *Eb4@2.5 E4@3",
    "E flat on the and of 2: the blue third of C7, slid up into the third.",
    { ...BLUES, slide: true },
  ],
  [
    "C // G4@1 *Ab4@1.5 G4@2",
    "A flat on the and of 1: a flat thirteenth foreign to C, a step above the fifth and back.",
  ],
  [
    "C // G4@1 *F#4@1.5 G4@2",
    "F sharp on the and of 1: a sharp eleventh foreign to C, a step below the fifth and back.",
  ],
  [
    "Dm7 | G7 // D4@4 *A#3@4.5 | B3@1",
    "A sharp on the and of 4: a raised fifth foreign to Dm7, rising a half step into the third of G7.",
  ],
  ["C // C5@1 *F4@1.5 E4@2", "F on the and of 1: the fourth of C, stepping down into the third."],
  ["C // G4@1 *D4@1.5 D#4@2 E4@2.5", "D on the and of 1: the ninth of C, led up by half steps to the third."],
  [
    "C // E4@1 *A4@1.5 B4@2 C5@2.5",
    "A on the and of 1: the sixth of C, the first of two scale steps up to the root.",
  ],
  [
    "G7 | C // D4@4 *C4@4.5 | C4@1",
    "C on the and of 4: the fourth of G7, an anticipation of the root of C, struck again when the chord arrives.",
  ],
  [
    "Cm7 | F7 // G4@4 *A4@4.5:1.5 | G4@2.5",
    "A on the and of 4: the thirteenth of Cm7, already the third of the F7 to come, held over the change.",
    { key: "Bb" },
  ],
  [
    "G7 | C // *F4@3:3 | E4@2",
    "F on beat 3: the seventh of G7, a suspension that gives way to the third of C.",
  ],
  [
    "G7 | C // F4@4 | *F4@1 E4@2",
    "F on beat 1: the fourth of C, carried over from the chord before and resolved down to the third.",
  ],
  [
    "G7 | C // *F4@4 D#4@4.5 | E4@1",
    "F on beat 4: the seventh of G7, the upper side of an enclosure of the third of C.",
  ],
  [
    "C // C4@1 D4@1.5 *B3@2 C4@2.5",
    "B on beat 2: the major seventh of C, the lower half of a double neighbour around the root.",
  ],
  ["C // C4@1 *D4@1.5 E4@2", "D on the and of 1: the ninth of C, a step on the way up to the third."],
  [
    "C // C4@1 *C#4@1.5 D4@2 D#4@2.5 E4@3",
    "C sharp on the and of 1: foreign to C, a half step above the root, passing by half steps up to the third.",
  ],
  [
    "C // C4@2 *F4@3 E4@3.5",
    "F on beat 3: the fourth of C, a half step above the third, an appoggiatura that settles down onto the third.",
  ],
  ["C // E4@1 *F4@1.5 C4@2", "F on the and of 1: the fourth of C, reached by step and left by leap."],
  [
    "C7 // G4@1 *Eb4@1.5 C4@2",
    "E flat on the and of 1: the blue third of C7, left blue, with no step to resolve it.",
    BLUES,
  ],
  ["Cmaj7 // G4@1 *D5@2", "D on beat 2: the ninth of Cmaj7, a colour for its own sake."],
  ["Cmaj7 // G4@1 *D5@2.5", "D on the and of 2: the ninth of Cmaj7, left to stand as a colour."],
  [
    "Cmaj7 // G4@1 *D5@2.5 G4@3",
    "D on the and of 2: the ninth of Cmaj7, a colour that the line leaves by leap.",
  ],
  [
    "C // C4@1 *F4@2",
    "F on beat 2: the fourth of C, a half step above the third, with no step to release it.",
  ],
  [
    "C // G4@1 *C#4@1.5 G4@2",
    "C sharp on the and of 1: outside C, a half step above the root, neither prepared nor resolved.",
  ],
  [
    "Gm7 | C7 // *C#5@4.5 | D5@1",
    "C sharp on the and of 4: a sharp eleventh outside Gm7, moving on by step, though not into a chord tone.",
    { key: "F" },
  ],
  ["C // C4@2 *A4@3 B4@3.5", "A on beat 3: the sixth of C, on its way to another colour."],
  ["C // *C5@1 G4@2", "C on beat 1: the root of C, planted on the bar line."],
  ["C // C5@1 *G4@2", "G on beat 2: the fifth of C, down the chord by a fourth."],
  ["Dm7 | G7 // A4@1 | *B4@1", "B on beat 1: the third of G7, a guide tone just as the chord arrives."],
  ["Dm7 | G7 // A4@1 | D4@1 *B4@3", "B on beat 3: the third of G7, a guide tone on a strong beat."],
  [
    "F7 | Bb7 // A4@1 | F4@1 *Ab4@2",
    "A flat on beat 2: the seventh of Bb7 and a blue note of the key, up the chord by a third.",
    { key: "F", idiom: "blues" },
  ],
  [
    "Cdim7 // Gb4@1 *A4@2",
    "A on beat 2: the diminished seventh of Cdim7, up the chord by a third.",
    { key: "C" },
  ],
  [
    "Cdim7 // C5@1 *Bb4@1.5 A4@2",
    "B flat on the and of 1: a minor seventh foreign to Cdim7, falling a half step into the diminished seventh.",
  ],
  [
    "C | Cdim7 // C5@1 *Bb4@4.5 | A4@1",
    "B flat on the and of 4: a minor seventh foreign to C, falling a half step into the diminished seventh of Cdim7.",
  ],
  ["N.C. // E4@1 *G4@2", "G on beat 2: the fifth of the key, no chord beneath it, a leap of a third up."],
  ["N.C. // E4@1 *Bb4@2", "B flat on beat 2: no chord beneath it, neither prepared nor resolved."],
  ["N.C. // G4@1 *D4@1.5 E4@2", "D on the and of 1: no chord beneath it, leading up to E."],
  ["C7 // *<C3@1 G4@1", "C on beat 1, in the accompaniment: the root of C7."],
  [
    "Am | G // E5@1 *D5@3 C5@4 | B4@1",
    "D on eighth 3: the eleventh of Am, passing down to the third.",
    { meter: "6/8" },
  ],
  [
    "C | C // E4@3.667 *F4@4.333 F#4@4.667 | G4@1",
    "F on the second triplet of 4: the fourth of C, a chromatic step on the way up to the fifth.",
  ],
];

/** What is said of a foreign note on the stronger place. */
const ACCENTS: readonly (readonly [string, string, Setting?])[] = [
  ["C // E4@1.5 *D4@2 C4@2.5", "D on beat 2: the ninth of C, an accented passing note down to the root."],
  [
    "C // E4@2.5 *F4@3 E4@3.5",
    "F on beat 3: the fourth of C, an accented upper neighbour that falls back to the third.",
  ],
  ["C // E4@2.5 *F4@3 E4@3.5", "F: the fourth of C, a step above the third and back.", { rubato: true }],
  [
    "C // E4@2 *F4@3 E4@4",
    "F on beat 3: the fourth of C, an accented upper neighbour that falls back to the third.",
  ],
  [
    "C // G4@1.5 *F#4@2 G4@2.5",
    "F sharp on beat 2: a sharp eleventh foreign to C, an accented lower neighbour that returns to the fifth.",
  ],
  ["C // C4@1.5 *D4@2 E4@2.5", "D on beat 2: the ninth of C, an accented passing note up to the third."],
  [
    "C | C // C4@1.5 *D4@2 E4@2.5",
    "D on beat 2: the ninth of C, accented as it passes up to the third.",
    { later: 1 },
  ],
  [
    "C // D4@2.5 *Eb4@3 E4@3.5",
    "D sharp on beat 3: a sharp ninth foreign to C, rising a half step into the third.",
  ],
  [
    "C // D4@1.5 *D#4@2 E4@2.5",
    "D sharp on beat 2: a sharp ninth foreign to C, rising a half step into the third.",
  ],
  [
    "C // C4@1.5 *C#4@2 D4@2.5 E4@3",
    "C sharp on beat 2: foreign to C, a half step above the root, a chromatic step on the way up to the third.",
  ],
  [
    "C // C4@2.5 *C#4@3 D4@3.5 D#4@4 E4@4.5",
    "C sharp on beat 3: foreign to C, a half step above the root, an accented chromatic step on the way up to the third.",
  ],
  [
    "C // E4@2 *F4@2.5 E4@3.5",
    "F on the and of 2: the fourth of C, an upper neighbour that falls back to the third.",
  ],
];

describe("the sentence for a note", () => {
  it.each(ACCENTS.map(([text, sentence, setting]) => ({ text, sentence, setting })))(
    "$text: $sentence",
    (row) => {
      expect(said(row.text, row.setting)).toBe(row.sentence);
    },
  );

  it.each(ROWS.map(([text, sentence, setting]) => ({ text, sentence, setting })))(
    "$text: $sentence",
    (row) => {
      const { text, sentence, setting } = row;
      expect(said(text, setting)).toBe(sentence);
    },
  );
});
