import type { Interval } from "../../pitch/index.ts";
import type { WarningCollector } from "../warning-collector.ts";

/** What holds in a part until it is stated anew, from bar to bar, and what has been counted in it so far. */
export interface PartState {
  readonly id: string;
  readonly warnings: WarningCollector;
  /** Units of length in a quarter note. */
  divisions: number;
  /** MIDI velocity of notes that state none. */
  velocity: number;
  /** As printed, before any transposition. */
  key: { readonly fifths: number; readonly mode: "major" | "minor" };
  /** By staff; 0 for all staves without one of their own. */
  readonly transpositions: Map<number, Interval>;
  /** Sounding notes, before ties are joined. */
  notes: number;
  unpitched: number;
  staves: number;
}

/** Loudness until one is stated: mezzo-forte. */
const DEFAULT_VELOCITY = 80;

export function newPart(id: string, warnings: WarningCollector): PartState {
  return {
    id,
    warnings,
    divisions: 1,
    velocity: DEFAULT_VELOCITY,
    key: { fifths: 0, mode: "major" },
    transpositions: new Map(),
    notes: 0,
    unpitched: 0,
    staves: 1,
  };
}

/** Velocity of a percentage of forte, MIDI 90 (MusicXML 4.0, `<sound dynamics>`). */
export function velocityOfPercent(percent: number): number {
  return Math.max(1, Math.min(127, Math.round(0.9 * percent)));
}

/** A number that the document states; null for none, and for one that is none. */
export function finite(value: number | undefined): number | null {
  return value !== undefined && Number.isFinite(value) ? value : null;
}
