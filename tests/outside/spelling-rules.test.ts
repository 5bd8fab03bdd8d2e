/**
 * Chord first, direction second, key third. Chord spellings are facts of the trade (a third is two letters above the
 * root); chromatic notes written up when rising and down when falling: Kostka & Payne [memory]; blue notes [practice].
 */
import { describe, expect, it } from "vitest";
import { labelNotes } from "../../src/harmony/index.ts";
import { labelled, type Setting, written } from "../harmony/notation.ts";

function names(text: string, setting: Setting = {}): string {
  return labelled(text, setting)
    .labels.map((label) => label.spelling.replace(/-?\d$/, ""))
    .join(" ");
}

const ROWS: readonly (readonly [string, string, string, Setting?])[] = [
  ["the seventh of C7 in a sharp key", "C7 // A#4@1", "Bb", { key: "E" }],
  ["the third of D7 in a flat key", "D7 // Gb4@1", "F#", { key: "Eb" }],
  ["the third of Ebm7", "Ebm7 // F#4@1", "Gb", { key: "Db" }],
  ["the fifth of Cm7b5", "Cm7b5 // F#4@1", "Gb", { key: "Bb" }],
  [
    "the diminished seventh of C#dim7 is B flat, not A sharp",
    "C#dim7 // C#4@1 E4@2 G4@3 A#4@4",
    "C# E G Bb",
    { key: "D" },
  ],
  ["no double flat in Cdim7: players read A", "Cdim7 // A4@1", "A"],
  ["no double flat in Abm7b5: players read D", "Abm7b5 // D4@1", "D", { key: "Gb" }],
  ["no double sharp in D#7: players read G", "D#7 // G4@1", "G", { key: "G#m" }],
  ["the third of Db7 altered keeps F", "Db7 // F4@1 B4@2", "F Cb", { key: "Gb" }],
  ["the flat ninth of an altered dominant", "G7alt // G#4@1", "Ab"],
  ["the sharp ninth on its way down to the ninth", "G7 | C // B4@1 Bb4@1.5 A4@2", "B Bb A"],
  [
    "the sharp ninth on its way down to the flat ninth",
    "C7alt | F // E4@1 Eb4@1.5 Db4@2",
    "E Eb Db",
    { key: "F" },
  ],
  ["the sharp ninth of an altered dominant", "G7alt // Bb4@1", "A#"],
  ["the sharp eleventh of a tritone substitute", "Dm7 | Db7 | Cmaj7 // | G4@1", "G"],
  ["the sharp eleventh of IVmaj7", "Fmaj7 // B4@1", "B"],
  ["the blue third keeps its name even when it rises", "C7 // D#4@2.5 E4@3", "Eb E", { idiom: "blues" }],
  ["the blue fifth is raised when it rises", "C7 // Gb4@2.5 G4@3", "F# G", { idiom: "blues" }],
  [
    "the flat fifth that a chord names keeps its name even when it rises",
    "Cm7b5 // F#4@1.5 G4@2",
    "Gb G",
    { key: "Bb" },
  ],
  [
    "the blue third keeps its name on a white key too",
    "Ab7 // B4@1 Ab4@2",
    "Cb Ab",
    { key: "Ab", idiom: "blues" },
  ],
  [
    "falling a half step in a sharp key is lowered all the same",
    "Amaj7 // A#4@1.5 A4@2",
    "Bb A",
    { key: "E" },
  ],
  ["rising a half step in a flat key is raised all the same", "Gm7 // Gb4@1.5 G4@2", "F# G", { key: "Eb" }],
  [
    "the last note has nothing to lean on: the key decides, in flats",
    "Cm // C5@1 E4@2",
    "C E",
    { key: "Eb" },
  ],
  ["and in sharps", "E // E5@1 Bb4@2", "E A#", { key: "E" }],
  [
    "nor does a note lean on one after a breath",
    "Fmaj7 | Fmaj7 // C5@1 G#4@2:0.5 | A4@3",
    "C Ab A",
    { key: "F" },
  ],
  [
    "a foreign note of the comping hand leans on nothing",
    "E7 // <E3@1 <Bb3@1 G#4@1",
    "E A# G#",
    { key: "E" },
  ],
  ["the blue fifth is lowered when it falls", "C7 // F#4@2.5 F4@3", "Gb F", { idiom: "blues" }],
  ["a blue fifth on a white key is natural", "F7 // Cb5@2.5 Bb4@3", "B Bb", { key: "F", idiom: "blues" }],
  ["a raised blue fifth on a white key too", "Bb7 // E4@2.5 F4@3", "E F", { key: "F", idiom: "blues" }],
  ["a chromatic note rising to D is C sharp", "C // Db4@1.5 D4@2", "C# D"],
  ["a chromatic note falling to C is D flat", "C // C#4@1.5 C4@2", "Db C"],
  [
    "rising into a flat name stays a letter below: B natural into C",
    "Fm7 // B4@1.5 C5@2",
    "B C",
    { key: "Eb" },
  ],
  ["E natural into F, not F flat", "Bbmaj7 // Fb4@1.5 F4@2", "E F", { key: "Bb" }],
  [
    "falling from outside into a sharp name keeps white keys white",
    "A7 // D4@1.5 C#4@2",
    "D C#",
    { key: "D" },
  ],
  ["a white key is never given a sharp for direction's sake", "Amaj7 // C4@1.5 C#4@2", "C C#", { key: "A" }],
  ["a chain of half steps rises in sharps", "C // C4@1 Db4@1.5 D4@2 Eb4@2.5 E4@3", "C C# D D# E"],
  ["and falls in flats", "C // E4@1 D#4@1.5 D4@2 C#4@2.5 C4@3", "E Eb D Db C"],
  ["without direction the key decides: flat key", "Fmaj7 // C5@1 G#4@2 C5@3", "C Ab C", { key: "F" }],
  ["without direction the key decides: sharp key", "Emaj7 // E4@1 A#4@2 E5@3", "E A# E", { key: "E" }],
  ["without a chord the key decides", "N.C. // Bb4@1 Eb5@2 Bb4@3", "Bb Eb Bb", { key: "Bb" }],
  ["without a chord, in sharps", "N.C. // F#4@1 C#5@2 G#4@3", "F# C# G#", { key: "A" }],
  ["without a chord a leading note rises", "N.C. // A4@1 G#4@1.5 A4@2", "A G# A", { key: "Am" }],
  ["the comping hand is spelled by the chord", "Ab7 // <F#3@1 <C4@1 Eb5@2", "Gb C Eb", { key: "Db" }],
];

describe("spelling", () => {
  it.each(ROWS.map(([why, text, is, setting]) => ({ why, text, is, setting })))(
    "$why: $text is $is",
    (row) => {
      expect(names(row.text, row.setting)).toBe(row.is);
    },
  );

  it("spells the same in rubato", () => {
    expect(names("C // C4@1 Db4@1.5 D4@2 Eb4@2.5 E4@3", { rubato: true })).toBe("C C# D D# E");
    expect(names("N.C. // A4@1 Ab4@1.5 A4@2", { rubato: true, key: "Am" })).toBe("A G# A");
  });

  it("does not depend on the order in which the notes are given", () => {
    for (const setting of [{}, { rubato: true }]) {
      const { chart, spans, notes } = written("N.C. // C4@1 Db4@1.5 D4@2 Eb4@2.5 E4@3", setting);
      const spellings = labelNotes([...notes].reverse(), chart, spans).map((label) => label.spelling);
      expect(spellings.reverse()).toEqual(["C4", "C#4", "D4", "D#4", "E4"]);
    }
  });

  it("keeps the octave of the name: C flat 5 sounds as B4, B sharp 3 as C4", () => {
    expect(labelled("Abm7 // B4@1", { key: "Gb" }).labels[0]!.spelling).toBe("Cb5");
    expect(labelled("G#7 // C4@1", { key: "C#m" }).labels[0]!.spelling).toBe("B#3");
  });
});

describe("a source that changes key", () => {
  it("has the notes that no chord names spelled by the signature in force", () => {
    const { chart, spans, notes } = written("N.C. | N.C. // F#4@1 Bb4@3 | F#4@1 Bb4@3", { key: "C" });
    const keys = [
      { tick: 0, fifths: -6, mode: "major" as const },
      { tick: 4 * 480, fifths: 6, mode: "major" as const },
    ];
    const named = (marks: typeof keys) =>
      labelNotes(notes, chart, spans, marks).map((label) => label.spelling);
    expect(named(keys)).toEqual(["Gb4", "Bb4", "F#4", "A#4"]);
    // One signature tells nothing that the chart does not know better.
    expect(named([keys[0]!])).toEqual(named([]));
  });
});
