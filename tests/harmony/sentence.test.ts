/** What is said of a note: one sentence, in good English, that says what is so. */
import { describe, expect, it } from "vitest";
import { chordSpans, formChart } from "../../src/chart/index.ts";
import { LINE_ROLES, labelNotes, sentenceFor } from "../../src/harmony/index.ts";
import type { PlacedNote } from "../../src/take/index.ts";
import { type Setting, said, written } from "./notation.ts";

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
    "E flat: the blue third of C7, pushed up into the third.",
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
  ["C // G4@1 *Ab4@1.5 G4@2", "A flat on the and of 1: foreign to C, a step above the fifth and back."],
  ["C // G4@1 *F#4@1.5 G4@2", "F sharp on the and of 1: foreign to C, a step below the fifth and back."],
  [
    "Dm7 | G7 // D4@4 *A#3@4.5 | B3@1",
    "A sharp on the and of 4: foreign to Dm7, pushed up into the third of G7.",
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
    "G7 | C // *F4@4 D4@4.5 | E4@1",
    "F on beat 4: the seventh of G7, the upper side of an enclosure of the third of C.",
  ],
  [
    "C // C4@1 D4@1.5 *B3@2 C4@2.5",
    "B on beat 2: the major seventh of C, the lower half of a double neighbour around the root.",
  ],
  ["C // C4@1 *D4@1.5 E4@2", "D on the and of 1: the ninth of C, a step on the way up to the third."],
  [
    "C // C4@1 *C#4@1.5 D4@2 D#4@2.5 E4@3",
    "C sharp on the and of 1: foreign to C, passing by half steps up to the third.",
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
  ["Cmaj7 // G4@1 *D5@2", "D on beat 2: the ninth of Cmaj7, left to stand as a colour."],
  [
    "C // C4@1 *F4@2",
    "F on beat 2: the fourth of C, a half step above the third, with no step to release it.",
  ],
  ["C // G4@1 *C#4@1.5 G4@2", "C sharp on the and of 1: outside C, neither prepared nor resolved."],
  ["C // C4@2 *A4@3 B4@3.5", "A on beat 3: the sixth of C, a colour in passing that settles nowhere yet."],
  ["C // *C5@1 G4@2", "C on beat 1: the root of C, square on the downbeat."],
  ["C // C5@1 *G4@2", "G on beat 2: the fifth of C."],
  ["Dm7 | G7 // A4@1 | *B4@1", "B on beat 1: the third of G7, the guide tone as the chord arrives."],
  ["Dm7 | G7 // A4@1 | D4@1 *B4@3", "B on beat 3: the third of G7, a guide tone on a strong beat."],
  [
    "F7 | Bb7 // A4@1 | F4@1 *Ab4@2",
    "A flat on beat 2: the seventh of Bb7 and a blue note of the key.",
    { key: "F", idiom: "blues" },
  ],
  ["Cdim7 // Gb4@1 *A4@2", "A on beat 2: the diminished seventh of Cdim7.", { key: "C" }],
  ["N.C. // E4@1 *G4@2", "G on beat 2: the fifth of the key, no chord beneath it."],
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
  ["C // E4@1.5 *D4@2 C4@2.5", "D on beat 2: the ninth of C, accented, passing down to the root."],
  ["C // E4@2.5 *F4@3 E4@3.5", "F on beat 3: the fourth of C, accented, a step above the third and back."],
  ["C // E4@2.5 *F4@3 E4@3.5", "F: the fourth of C, a step above the third and back.", { rubato: true }],
  ["C // E4@2 *F4@3 E4@4", "F on beat 3: the fourth of C, accented, a step above the third and back."],
  [
    "C // E4@2 *F4@2.5 E4@3.5",
    "F on the and of 2: the fourth of C, an upper neighbour that falls back to the third.",
  ],
];

/** The two ways of saying the same: what is said in one chorus, and in the next. */
const WAYS: readonly (readonly [string, string, string, Setting?])[] = [
  [
    "C // G4@1 *Ab4@1.5 G4@2",
    "A flat on the and of 1: foreign to C, a step above the fifth and back.",
    "A flat on the and of 1: foreign to C, an upper neighbour that falls back to the fifth.",
  ],
  [
    "C // G4@1 *F#4@1.5 G4@2",
    "F sharp on the and of 1: foreign to C, a step below the fifth and back.",
    "F sharp on the and of 1: foreign to C, a lower neighbour that returns to the fifth.",
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
    "A flat on the and of 1: foreign to C, falling a half step into the fifth.",
    "A flat on the and of 1: foreign to C, pulled down into the fifth.",
  ],
  [
    "G7 | C // D4@4 *C4@4.5 | C4@1",
    "C on the and of 4: the fourth of G7, an anticipation of the root of C, struck again when the chord arrives.",
    "C on the and of 4: the fourth of G7, already the root of the C to come, struck again when the chord arrives.",
  ],
  [
    "G7 | C // D4@4 *C4@4.5 | E4@1",
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
    "G7 | C // *F4@4 D4@4.5 | E4@1",
    "F on beat 4: the seventh of G7, the upper side of an enclosure of the third of C.",
    "F on beat 4: the seventh of G7, enclosing the third of C from above.",
  ],
  [
    "G7 | C // F4@4 *D4@4.5 | E4@1",
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
    "C sharp on the and of 1: foreign to C, passing by half steps up to the third.",
    "C sharp on the and of 1: foreign to C, a chromatic step on the way up to the third.",
  ],
  [
    "C // C4@2 *F4@3 E4@3.5",
    "F on beat 3: the fourth of C, a half step above the third, an appoggiatura that settles down onto the third.",
    "F on beat 3: the fourth of C, a half step above the third, leaned on before it resolves down to the third.",
  ],
  [
    "C // E4@1 *F4@1.5 C4@2",
    "F on the and of 1: the fourth of C, reached by step and left by leap.",
    "F on the and of 1: the fourth of C, an escape: a step out, then a leap away.",
  ],
  [
    "C7 // G4@1 *Eb4@1.5 C4@2",
    "E flat on the and of 1: the blue third of C7, left blue, with no step to resolve it.",
    "E flat on the and of 1: the blue third of C7, kept as a blue note in its own right.",
    { idiom: "blues" },
  ],
  [
    "Cmaj7 // G4@1 *D5@2",
    "D on beat 2: the ninth of Cmaj7, left to stand as a colour.",
    "D on beat 2: the ninth of Cmaj7, a colour that needs no resolution.",
  ],
  [
    "C // C4@1 *F4@2",
    "F on beat 2: the fourth of C, a half step above the third, with no step to release it.",
    "F on beat 2: the fourth of C, a half step above the third, left unresolved.",
  ],
  [
    "C // G4@1 *C#4@1.5 G4@2",
    "C sharp on the and of 1: outside C, neither prepared nor resolved.",
    "C sharp on the and of 1: outside C, and left there.",
  ],
  [
    "C // C4@2 *A4@3 B4@3.5",
    "A on beat 3: the sixth of C, a colour in passing that settles nowhere yet.",
    "A on beat 3: the sixth of C, moving on without coming to rest.",
  ],
  [
    "Dm7 | G7 // A4@1 | *B4@1",
    "B on beat 1: the third of G7, the guide tone as the chord arrives.",
    "B on beat 1: the third of G7, which spells out the change.",
  ],
  [
    "Cm7 // C5@2 *A4@3 C5@4",
    "A on beat 3: the thirteenth of Cm7, the tone that gives the dominant away, with no step to release it.",
    "A on beat 3: the thirteenth of Cm7, the tone that gives the dominant away, left unresolved.",
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
    "C on beat 3: the flat thirteenth of Em7, an escape: a step out, then a leap away.",
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
    "C on beat 2: the flat ninth of Bm7b5, an escape: a step out, then a leap away.",
    { key: "Am" },
  ],
];

describe("the sentence for a note", () => {
  it.each(ACCENTS.map(([text, sentence, setting]) => ({ text, sentence, setting })))(
    "$text: $sentence",
    (row) => {
      expect(said(row.text, row.setting)).toBe(row.sentence);
    },
  );

  it.each(WAYS.map(([text, first, second, setting]) => ({ text, first, second, setting })))(
    "$text: $first / $second",
    (row) => {
      expect(said(row.text, row.setting)).toBe(row.first);
      expect(said(row.text, { ...row.setting, later: 1 })).toBe(row.second);
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

/** A solo of `choruses` choruses of a blues, wandering by steps and leaps, always the same. */
function wandering(choruses: number): { notes: PlacedNote[]; text: string[]; roles: Set<string> } {
  const chart = formChart("blues-basic", "F");
  const spans = chordSpans(chart);
  const base = written("F7 // F4@1", { key: "F" }).notes[0]!;
  let seed = 11;
  const draw = (n: number) => {
    seed = (seed * 1_103_515_245 + 12_345) % 2_147_483_648;
    return Math.floor((seed / 2_147_483_648) * n);
  };
  let pitch = 65;
  const notes: PlacedNote[] = [];
  for (let step = 0; step < choruses * 96; step++) {
    if (draw(6) === 0) continue;
    pitch = Math.min(84, Math.max(55, pitch + [-5, -3, -2, -1, -1, 0, 1, 1, 2, 3, 4][draw(11)]!));
    const position = step / 2;
    const place = position % 48;
    notes.push({
      ...base,
      id: `n${notes.length + 1}`,
      pitch,
      position,
      onset: position / 2,
      duration: 0.24,
      beats: 0.48,
      chorus: 1 + Math.floor(position / 48),
      bar: 1 + Math.floor(place / 4),
      beat: 1 + (place % 4),
      span: spans.findLastIndex((span) => span.start <= place),
    });
  }
  const labels = labelNotes(notes, chart, spans);
  const text = notes.map((note, i) => {
    const target = labels[i]!.target === null ? null : Number(labels[i]!.target!.slice(1)) - 1;
    return sentenceFor(note, labels[i]!, {
      target: target === null ? null : notes[target]!,
      targetLabel: target === null ? null : labels[target]!,
      span: spans[note.span]!,
      nextSpan: spans[(note.span + 1) % spans.length]!,
      meter: chart.meter,
      finger: null,
      slide: false,
    });
  });
  return { notes, text, roles: new Set(labels.map((label) => label.lineRole!)) };
}

describe("eleven choruses of sentences", () => {
  const { text, roles, notes } = wandering(11);

  it("speak of every line role", () => {
    expect([...roles].sort()).toEqual(
      [...LINE_ROLES].filter((role) => role !== "suspension" || roles.has(role)).sort(),
    );
  });

  it("are one sentence each, that begins with a note name and ends with a full stop", () => {
    for (const sentence of text) {
      expect(sentence).toMatch(/^[A-G]( flat| sharp)? on (beat \d|the and of \d): [a-z][^.]*\.$/);
      expect(sentence).not.toMatch(/null|undefined|NaN| {2}|,,|: ?[.,]|\ba a|\bthe the\b/);
    }
  });

  it("do not say the same of two different notes in a row", () => {
    const clause = (sentence: string) => sentence.slice(sentence.indexOf(":"));
    const again = text.filter(
      (sentence, i) =>
        i > 0 && clause(sentence) === clause(text[i - 1]!) && notes[i]!.pitch !== notes[i - 1]!.pitch,
    );
    expect(again.length / text.length).toBeLessThan(0.005);
  });

  it("know many ways to go on", () => {
    const ways = text.map((sentence) => sentence.slice(sentence.indexOf(",") + 1).replace(/\b[A-G]\S*/g, ""));
    expect(new Set(ways).size).toBeGreaterThan(80);
  });

  it("say the same of the same note every time", () => {
    expect(wandering(11).text).toEqual(text);
  });
});
