/**
 * What a chart is. Chords are read once, from a symbol, and then carried as values; everything that depends on the
 * place in the form (function, scale, tensions) is in `ChordSpan`.
 */

/** Degrees of a note against a chord's root, as the trade writes them; `3` is the major third, `b3` the minor one. */
export const DEGREES = [
  "1",
  "b9",
  "9",
  "#9",
  "b3",
  "3",
  "11",
  "#11",
  "b5",
  "5",
  "#5",
  "b13",
  "13",
  "6",
  "b7",
  "7",
] as const;

export type Degree = (typeof DEGREES)[number];

/** Families of chords that share a function and a way of playing. */
export const QUALITIES = [
  "major",
  "major-seventh",
  "sixth",
  "dominant",
  "suspended",
  "minor",
  "minor-seventh",
  "minor-sixth",
  "minor-major",
  "half-diminished",
  "diminished",
  "diminished-seventh",
  "augmented",
  "augmented-major",
  "power",
] as const;

export type Quality = (typeof QUALITIES)[number];

/** What a tone does in its chord: the seventh of a sixth chord is its sixth, the third of a sus chord its fourth. */
export type ChordToneRole = "root" | "third" | "fifth" | "seventh" | "tension";

export interface ChordTone {
  readonly degree: Degree;
  /** Semitones above the root, 0 to 11. */
  readonly semitones: number;
  /** `tension` for what the symbol names beyond the seventh (9, b13, ...). */
  readonly role: ChordToneRole;
}

export interface Chord {
  /** In the house style, "Bbm7b5", "C7(b9)/E". */
  readonly symbol: string;
  /** As the user or the source wrote it. */
  readonly text: string;
  /** Letter and accidental, "Eb". */
  readonly root: string;
  /** Pitch class of the root, 0 = C. */
  readonly rootClass: number;
  readonly bass: string;
  readonly bassClass: number;
  readonly quality: Quality;
  /** Rising from the root; the root first. */
  readonly tones: readonly ChordTone[];
  /** True for "7alt" and its spellings. */
  readonly altered: boolean;
}

export interface Key {
  /** Letter and accidental, "Eb". */
  readonly tonic: string;
  readonly tonicClass: number;
  readonly mode: "major" | "minor";
}

export interface Meter {
  readonly beats: number;
  /** 4 = quarter, 8 = eighth. */
  readonly unit: number;
}

export type Idiom = "blues" | "standard";

/** A chord in its bar. `chord` is null for N.C. */
export interface ChartChord {
  readonly chord: Chord | null;
  /** House style, or "N.C.". */
  readonly symbol: string;
  /** Beat of the bar on which it starts, 1 the first, in the meter's unit. */
  readonly beat: number;
  /** Number of beats in the meter's unit. */
  readonly beats: number;
  /** Name of a scale chosen by the user for this chord in place of the one that the function gives, or null. */
  readonly scale: string | null;
}

export interface ChartBar {
  /** From 1. */
  readonly number: number;
  /** The key in which it stands where that is not the chart's own; null in the chart's key. */
  readonly key: Key | null;
  readonly chords: readonly ChartChord[];
}

/** The chord progression of one chorus. */
export interface Chart {
  readonly name: string | null;
  /** The key of its first bar; bars that stand in another one say so. */
  readonly key: Key;
  readonly meter: Meter;
  readonly idiom: Idiom;
  readonly bars: readonly ChartBar[];
}

/** What a chord does in its key; names of the trade. */
export const CHORD_FUNCTIONS = [
  "tonic",
  "subdominant",
  "two",
  "dominant",
  "secondary-dominant",
  "secondary-two",
  "tritone-substitute",
  "backdoor",
  "passing-diminished",
  "mediant",
  "submediant",
  "modal-interchange",
  "blues-one",
  "blues-four",
  "blues-five",
  "none",
] as const;

export type ChordFunction = (typeof CHORD_FUNCTIONS)[number];

/** A stretch of one chord in the form, with all that follows from its place there. */
export interface ChordSpan {
  /** Index in the chorus, from 0. */
  readonly index: number;
  /** Bar of the chart, from 1. */
  readonly bar: number;
  /** Beat of the bar, 1 the first, in the meter's unit. */
  readonly beat: number;
  /** The key in force in its bar. */
  readonly key: Key;
  /** Start in quarter-note beats from the start of the chorus. */
  readonly start: number;
  /** Length in quarter-note beats. */
  readonly beats: number;
  /** Null for N.C. */
  readonly chord: Chord | null;
  readonly symbol: string;
  readonly function: ChordFunction;
  /** Roman numeral in the key, "V7/II"; "" for N.C. */
  readonly numeral: string;
  /** Name of the scale, "Mixolydian". */
  readonly scale: string;
  /** Pitch classes of the scale as semitones above the chord's root (above the tonic for N.C.), rising from 0. */
  readonly scaleTones: readonly number[];
  /** Semitones above the root that are available tensions, with their degrees. */
  readonly tensions: readonly { readonly semitones: number; readonly degree: Degree }[];
  readonly avoid: readonly { readonly semitones: number; readonly degree: Degree }[];
  /**
   * Altered tensions that a dominant on its way home takes besides those of its scale (b9 #9 #11 b13), else empty.
   */
  readonly altered: readonly { readonly semitones: number; readonly degree: Degree }[];
  /** Blue notes: 3 and 6 semitones where the idiom and the chord make them blue, else empty. */
  readonly blue: readonly { readonly semitones: number; readonly degree: Degree }[];
}
