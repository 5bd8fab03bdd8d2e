import type { KeyMark, MeterMark, PrintedFinger } from "../take/index.ts";

/**
 * What a page of staff notation holds, in plain values. `writeMusicXml(model)` makes MusicXML of it: it splits notes at
 * bar lines with ties, spells durations with dots and triplets, fills up with rests, shares a staff between voices
 * and writes every annotation. Whoever wants an annotated score, a practice sheet or an engraved staff fills this in.
 *
 * All times are integer ticks, `ticksPerQuarter` to a quarter note. 12 is enough for triplets and sixteenths, 48 for
 * triplet sixteenths and thirty-seconds; a take's own value keeps its notes exact. Durations that no note value has
 * are written as chains of tied notes.
 *
 * @example
 * const model: ScoreModel = {
 *   title: "Turnaround", ticksPerQuarter: 12, swing: null,
 *   parts: [{ id: "P1", name: "Piano", staves: 1, program: 0 }],
 *   meters: [{ tick: 0, beats: 4, unit: 4 }], keys: [{ tick: 0, fifths: -1, mode: "major" }],
 *   tempos: [{ tick: 0, quartersPerMinute: 120 }], texts: [], pedal: [],
 *   bars: [{ ...EMPTY_BAR, number: "1", ticks: 48,
 *     chords: [{ tick: 0, text: "F7" }],
 *     notes: [{ ...EMPTY_NOTE, id: "n1", tick: 0, ticks: 12, spelling: "A4", fingering: [{ finger: 2, substitution: false, alternate: false }] }] }],
 * };
 */
export interface ScoreModel {
  readonly title: string | null;
  /** Notice of rights, or null; left out when undefined. */
  readonly rights?: string | null;
  readonly ticksPerQuarter: number;
  /** At least one; each at least one staff. */
  readonly parts: readonly ScorePart[];
  /** Ticks from the start of the score; a mark that stands inside a bar takes effect at the next bar line. */
  readonly meters: readonly MeterMark[];
  readonly keys: readonly KeyMark[];
  /** Ticks from the start of the score. */
  readonly tempos: readonly { readonly tick: number; readonly quartersPerMinute: number }[];
  readonly swing: {
    readonly first: number;
    readonly second: number;
    readonly unit: "eighth" | "16th";
  } | null;
  /** Words above the staff, ticks from the start of the score. */
  readonly texts: readonly {
    readonly tick: number;
    readonly text: string;
    /** Below the staff, where no chord symbols and fingers stand; else above. */
    readonly below?: true;
  }[];
  /** Changes of the sustain pedal, ticks from the start of the score. */
  readonly pedal: readonly { readonly tick: number; readonly down: boolean }[];
  /** One after the other; each starts where the one before it ends. */
  readonly bars: readonly ScoreBar[];
}

export interface ScorePart {
  readonly id: string;
  readonly name: string;
  /** One or two, rarely three. */
  readonly staves: number;
  /** General MIDI program, 0 to 127, or null. */
  readonly program: number | null;
}

export interface ScoreBar {
  /** As printed. */
  readonly number: string;
  /** Length; less than the meter asks for in a pickup. */
  readonly ticks: number;
  /** True for pickups and split bars that do not count. */
  readonly implicit: boolean;
  /** Words above the bar ("Chorus 2"), or null. */
  readonly heading: string | null;
  /** True to begin a new line on the page. */
  readonly newLine: boolean;
  /** "double" and "final" close it with that bar line. */
  readonly close: "plain" | "double" | "final";
  /** Ticks from the start of the bar. */
  readonly chords: readonly ScoreChord[];
  readonly notes: readonly ScoreNote[];
}

export interface ScoreChord {
  /** From the start of the bar. */
  readonly tick: number;
  /** Chord symbol in a usual spelling, "Bb7(b9)", or "N.C.". */
  readonly text: string;
}

export interface ScoreFinger extends PrintedFinger {
  /** True for a finger that was worked out, not printed in the source: written in italics, as editors do. [practice] */
  readonly inferred?: boolean;
}

export interface ScoreNote {
  /** Kept as the `id` of the written note; unique. Where ties split it, further pieces get "-2", "-3" behind it. */
  readonly id: string;
  /** `ScorePart.id`; null for the first part. */
  readonly part: string | null;
  /** From the start of the bar, less than the bar's length; the length itself for a grace note behind the last note. */
  readonly tick: number;
  /** May reach over bar lines: ties are written. 0 for a grace note, which stands before the note at its tick. */
  readonly ticks: number;
  /** "Eb4", "F##5", at sounding pitch. */
  readonly spelling: string;
  /** From 1. */
  readonly staff: number;
  /** Voice to be written in; null lets the writer share the staff between voices so that nothing overlaps. */
  readonly voice: string | null;
  /** MIDI velocity, or null for none. */
  readonly velocity: number | null;
  readonly grace: "acciaccatura" | "appoggiatura" | null;
  readonly fingering: readonly ScoreFinger[];
  /** Shape of the notehead, for telling notes apart without colour. */
  readonly notehead:
    | "normal"
    | "x"
    | "diamond"
    | "triangle"
    | "square"
    | "slash"
    | "circle-x"
    | "rectangle"
    | "circle dot"
    | "re"
    | "inverted triangle";
  /** Text under the staff, sung or not (a degree, a role). One line each. */
  readonly lyrics: readonly string[];
  /** Words below the note, or null. */
  readonly words: string | null;
}

export const EMPTY_BAR: Omit<ScoreBar, "number" | "ticks"> = {
  implicit: false,
  heading: null,
  newLine: false,
  close: "plain",
  chords: [],
  notes: [],
};

export const EMPTY_NOTE: Omit<ScoreNote, "id" | "tick" | "ticks" | "spelling"> = {
  part: null,
  staff: 1,
  voice: null,
  velocity: null,
  grace: null,
  fingering: [],
  notehead: "normal",
  lyrics: [],
  words: null,
};
