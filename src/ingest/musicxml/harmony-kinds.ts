/**
 * The kinds of `<harmony>` in MusicXML 4.0 ("kind-value") with the suffix of the chord symbol and the tones above the
 * root, which an inversion puts in the bass. The sixths of the classics are named by their sound.
 */
export const HARMONY_KINDS: readonly {
  readonly kind: string;
  readonly suffix: string;
  readonly tones: string;
}[] = [
  { kind: "major", suffix: "", tones: "3 5" },
  { kind: "minor", suffix: "m", tones: "b3 5" },
  { kind: "augmented", suffix: "aug", tones: "3 #5" },
  { kind: "diminished", suffix: "dim", tones: "b3 b5" },
  { kind: "dominant", suffix: "7", tones: "3 5 b7" },
  { kind: "major-seventh", suffix: "maj7", tones: "3 5 7" },
  { kind: "minor-seventh", suffix: "m7", tones: "b3 5 b7" },
  { kind: "diminished-seventh", suffix: "dim7", tones: "b3 b5 bb7" },
  { kind: "augmented-seventh", suffix: "7#5", tones: "3 #5 b7" },
  { kind: "half-diminished", suffix: "m7b5", tones: "b3 b5 b7" },
  { kind: "major-minor", suffix: "m(maj7)", tones: "b3 5 7" },
  { kind: "major-sixth", suffix: "6", tones: "3 5 6" },
  { kind: "minor-sixth", suffix: "m6", tones: "b3 5 6" },
  { kind: "dominant-ninth", suffix: "9", tones: "3 5 b7" },
  { kind: "major-ninth", suffix: "maj9", tones: "3 5 7" },
  { kind: "minor-ninth", suffix: "m9", tones: "b3 5 b7" },
  { kind: "dominant-11th", suffix: "11", tones: "3 5 b7" },
  { kind: "major-11th", suffix: "maj11", tones: "3 5 7" },
  { kind: "minor-11th", suffix: "m11", tones: "b3 5 b7" },
  { kind: "dominant-13th", suffix: "13", tones: "3 5 b7" },
  { kind: "major-13th", suffix: "maj13", tones: "3 5 7" },
  { kind: "minor-13th", suffix: "m13", tones: "b3 5 b7" },
  { kind: "suspended-second", suffix: "sus2", tones: "2 5" },
  { kind: "suspended-fourth", suffix: "sus4", tones: "4 5" },
  { kind: "power", suffix: "5", tones: "5" },
  { kind: "pedal", suffix: "(no3,no5)", tones: "" },
  { kind: "Neapolitan", suffix: "", tones: "3 5" },
  { kind: "Italian", suffix: "7", tones: "3 5 b7" },
  { kind: "French", suffix: "7b5", tones: "3 b5 b7" },
  { kind: "German", suffix: "7", tones: "3 5 b7" },
  { kind: "Tristan", suffix: "m7b5", tones: "b3 b5 b7" },
];
