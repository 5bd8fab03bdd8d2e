/** A finger of either hand: 1 is the thumb, 5 the little finger. */
export type Finger = 1 | 2 | 3 | 4 | 5;

export type Hand = "right" | "left";

/** The field of a score's heading that says that fingers in italics were worked out, and are not printed ones. */
export const INFERRED_FINGERS = { name: "fingering in italics", text: "inferred" } as const;

/** One printed fingering mark; `substitution` when the finger changes on the held key ("2-3" is 2, then 3 with substitution). */
export interface PrintedFinger {
  readonly finger: Finger;
  readonly substitution: boolean;
  readonly alternate: boolean;
}

/** What only a notated source says of a note. */
export interface PrintedNote {
  /** Scientific pitch name as printed at sounding pitch, "Eb4"; double accidentals "Bbb3", "F##5". */
  readonly spelling: string;
  readonly fingering: readonly PrintedFinger[];
  /** Grace notes take their time from the note after ("appoggiatura") or before it ("acciaccatura", slashed). */
  readonly grace: "acciaccatura" | "appoggiatura" | null;
  readonly staff: number;
  readonly voice: string;
  /** Index into `Take.bars` of the bar in which the note starts, as played out. */
  readonly bar: number;
  /** Identifier of the note in the document when it has one (MusicXML `id`). */
  readonly documentId: string | null;
  readonly lyric: string | null;
}

/** What is known of a note that was heard in a recording. */
export interface HeardFacts {
  /** 0 to 1: of notes said .9, nine in ten were played. */
  readonly certainty: number;
  /** What it may be instead of a note: overtones of another, or the sound of a key that still rings. */
  readonly doubt: "octave ghost" | "re-strike" | null;
}

/** What somebody who knows said of a note; it counts as truth. */
export interface CorrectedFacts {
  readonly hand?: Hand | undefined;
  readonly finger?: Finger | undefined;
  /** False for a slip, which belongs to no line. */
  readonly meant?: false | undefined;
}

/** One sounding note. Tied notes are one `Note`; a note played again by a repeat is another. */
export interface Note {
  /** "n1", "n2", ... in order of onset, then pitch; unique in its take. */
  readonly id: string;
  /** MIDI number, 0 to 127, middle C = 60, at sounding pitch. */
  readonly pitch: number;
  /** Performed start, in seconds from the start of the file. */
  readonly onset: number;
  /** Time that the key was held, in seconds; never 0. */
  readonly duration: number;
  /** Time that the note sounded with the sustain pedal, in seconds; at least `duration`. */
  readonly sounding: number;
  /** MIDI velocity, 1 to 127. */
  readonly velocity: number;
  /** Start in integer ticks (`Take.ticksPerQuarter` to a quarter note). Exact for notated sources. */
  readonly tick: number;
  /** Length in integer ticks; 0 for grace notes in notation. */
  readonly ticks: number;
  /** `Part.id` of the part that it belongs to. */
  readonly part: string;
  readonly printed: PrintedNote | null;
  /** Only of notes that were heard in a recording. */
  readonly heard?: HeardFacts;
  /** Only of notes that were corrected. */
  readonly corrected?: CorrectedFacts | null;
}
