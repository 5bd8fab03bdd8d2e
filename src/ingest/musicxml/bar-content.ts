import type { StatedSwing } from "../../take/index.ts";
import type { WrittenFinger } from "./fingering.ts";
import type { PartRoad } from "./road-marks.ts";

/**
 * One bar of one part as written: what stands in it, in document order, before ticks and repeats. Lengths are in
 * `units` of `1/divisions` quarter note, as the document counts them.
 */
export interface BarContent {
  readonly number: string;
  readonly implicit: boolean;
  readonly events: readonly BarEvent[];
  readonly roadmap: PartRoad;
}

export type BarEvent =
  | NoteEvent
  | MoveEvent
  | ChordEvent
  | MeterEvent
  | KeyEvent
  | TempoEvent
  | TextEvent
  | PedalEvent
  | SwingEvent;

export interface Length {
  readonly units: number;
  readonly divisions: number;
}

export interface NoteEvent {
  readonly kind: "note";
  readonly length: Length;
  /** Null for rests and for notes that are left out: they take time and sound not. */
  readonly sound: WrittenNote | null;
  /** True when it starts with the note before it. */
  readonly withPrevious: boolean;
  readonly grace: GraceKind | null;
  readonly voice: string;
}

export type GraceKind = "acciaccatura" | "appoggiatura";

export interface WrittenNote {
  /** MIDI number at sounding pitch. */
  readonly pitch: number;
  readonly spelling: string;
  readonly staff: number;
  readonly velocity: number;
  readonly tieStart: boolean;
  readonly tieStop: boolean;
  readonly fingering: readonly WrittenFinger[];
  /** One for each verse. */
  readonly lyrics: readonly string[];
  readonly documentId: string | null;
  /** Passes, from 1, in which it is played; null for all. */
  readonly timeOnly: readonly number[] | null;
}

export interface MoveEvent {
  readonly kind: "move";
  readonly length: Length;
  readonly direction: 1 | -1;
}

/** What stands at a place of the bar: the cursor's, moved by `offset`. */
interface Placed {
  readonly offset: Length;
}

export interface ChordEvent extends Placed {
  readonly kind: "chord";
  readonly text: string;
}

export interface MeterEvent {
  readonly kind: "meter";
  readonly beats: number;
  readonly unit: number;
}

export interface KeyEvent {
  readonly kind: "key";
  readonly fifths: number;
  readonly mode: "major" | "minor";
}

export interface TempoEvent extends Placed {
  readonly kind: "tempo";
  readonly quartersPerMinute: number;
}

export interface TextEvent extends Placed {
  readonly kind: "text";
  readonly as: "text" | "marker" | "tempo";
  readonly text: string;
}

export interface PedalEvent extends Placed {
  readonly kind: "pedal";
  readonly down: boolean;
}

export interface SwingEvent {
  readonly kind: "swing";
  readonly swing: StatedSwing | null;
}
