import { type Degree, degreeSemitones } from "../chart/index.ts";
import { mod12 } from "../pitch/index.ts";
import type { MotifPattern } from "./pattern.ts";

/** A note to be sounded or drawn; length in quarter-note beats. */
export interface SoundedNote {
  /** MIDI number. */
  readonly pitch: number;
  readonly beats: number;
}

/** From the middle of the keyboard; the key that a rhythm is tapped on. */
const START = 67;
const TAPPED = 72;
/** Where a pattern says nothing of length. */
const PLAIN = 0.5;

/**
 * A pattern as notes, to hear what it is: intervals from the G above middle C, degrees over a chord on C, a rhythm on
 * one key. Null for viewpoints that name no notes (contour, finger), and where lengths are known only against each
 * other.
 *
 * @example patternSound({ viewpoint: "chromatic interval", symbols: [2, 1], notes: 3 })?.map((n) => n.pitch) // [67, 69, 70]
 */
export function patternSound({ viewpoint, symbols }: Omit<MotifPattern, "notes">): SoundedNote[] | null {
  switch (viewpoint) {
    case "chromatic interval":
      return stepped(symbols.map((symbol) => ({ interval: Number(symbol), beats: PLAIN })));
    case "interval and rhythm": {
      const steps = symbols.map((symbol) => {
        const [interval, length] = String(symbol).split(", ");
        return { interval: Number(interval), beats: beatsOf(length ?? "") };
      });
      return steps.some(({ beats }) => Number.isNaN(beats)) ? null : stepped(steps);
    }
    case "rhythm": {
      const lengths = symbols.map((symbol) => beatsOf(String(symbol)));
      if (lengths.some(Number.isNaN)) return null;
      return [...lengths, PLAIN].map((beats) => ({ pitch: TAPPED, beats }));
    }
    case "degree":
      return degreesSounded(symbols.map((symbol) => degreeSemitones(String(symbol) as Degree)));
    case "contour":
    case "finger":
      return null;
  }
}

function stepped(steps: readonly { readonly interval: number; readonly beats: number }[]): SoundedNote[] {
  const notes: SoundedNote[] = [];
  let pitch = START;
  for (const { interval, beats } of steps) {
    notes.push({ pitch, beats });
    pitch += interval;
  }
  notes.push({ pitch, beats: PLAIN });
  return notes;
}

/** Each degree at the octave that lies nearest to the note before. */
function degreesSounded(semitones: readonly number[]): SoundedNote[] {
  let before = START;
  return semitones.map((above) => {
    const up = mod12(above - before);
    before += up > 6 ? up - 12 : up;
    return { pitch: before, beats: PLAIN };
  });
}

function beatsOf(words: string): number {
  const beats = /^(\d+(?:\.\d+)?) beats?$/.exec(words);
  return beats === null ? Number.NaN : Number(beats[1]);
}
