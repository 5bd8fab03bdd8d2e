import type { Chart } from "../../src/chart/index.ts";

/** How a player plays: what a teacher would notice, as numbers. All shares and probabilities are 0 to 1. */
export interface Manner {
  /** `talk`: call and answer in two-bar breaths; `stream`: long lines with short breaths; `scales`: up and down. */
  readonly plan: "talk" | "stream" | "scales";
  /** `all` places of a chord, only those on its `root`, or `one` place of the keyboard whatever the chord. */
  readonly places: "all" | "root" | "one";
  /** A two-bar slot stays silent. */
  readonly silence: number;
  /** The second slot of a four-bar line answers the first. */
  readonly answers: number;
  /** A call is the solo's motif. */
  readonly motif: number;
  /** A ring finger on a black key falls into the white key above when that is the chord's third. */
  readonly slides: number;
  /** How strongly a new chord is met with its third or seventh. */
  readonly guide: number;
  /** A phrase's last note is circled from above and below. */
  readonly enclosures: number;
  /** Shifts of a phrase's start against its cell, in beats. */
  readonly entries: readonly number[];
  /** MIDI number around which the first chorus lies. */
  readonly centre: number;
  /** Semitones by which each chorus lies higher than the one before. */
  readonly climb: number;
  /** Notes of a phrase grow longer with each chorus. */
  readonly grows: boolean;
}

/** How the take was played in time. */
export interface TimeSpec {
  /** `click`: to the file's own tempo. `free`: no click, the file's tempo says nothing. `rubato`: no beat at all. */
  readonly kind: "click" | "free" | "rubato";
  /** Quarter notes a minute; the starting tempo in `free`. */
  readonly tempo: number;
  /** Percent a minute, `free` only. */
  readonly drift: number;
  /** Standard deviation of a bar's tempo, share of the tempo. */
  readonly wander: number;
  /** First part over second part of a beat. */
  readonly swing: number;
  /** Standard deviation of that ratio from beat to beat. */
  readonly swingSpread: number;
  /** Standard deviation of an onset, seconds. */
  readonly jitter: number;
  /** Seconds by which the line lies behind the beat. */
  readonly behind: number;
}

export interface CompingSpec {
  readonly style: "shells" | "guide tones" | "walking" | "rolled" | "none";
  /** Both hands in one MIDI track, or a track (staff) for each. */
  readonly layout: "one track" | "two tracks";
}

/** All that decides a take, but for its seed. */
export interface TakeSpec {
  readonly title: string;
  readonly chart: Chart;
  readonly choruses: number;
  readonly format: "midi" | "musicxml";
  readonly manner: Manner;
  readonly time: TimeSpec;
  readonly comping: CompingSpec;
  /** Quarter-note beats of line before the first bar line, 0 for none. */
  readonly pickup: number;
  /** MusicXML only: print chord symbols and the fingers at each new place. */
  readonly annotated: boolean;
}

/** A good evening: everything that the class works on, in balance. */
export const STRONG: Manner = {
  plan: "talk",
  places: "all",
  silence: 0.06,
  answers: 0.7,
  motif: 0.7,
  slides: 0.5,
  guide: 0.9,
  enclosures: 0.35,
  entries: [0, 0.5, 1, -0.5],
  centre: 68,
  climb: 4,
  grows: true,
};

export const STEADY_TIME: TimeSpec = {
  kind: "click",
  tempo: 126,
  drift: 0,
  wander: 0,
  swing: 1.7,
  swingSpread: 0.12,
  jitter: 0.007,
  behind: 0.006,
};
