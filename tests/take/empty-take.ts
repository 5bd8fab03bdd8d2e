import type { Take } from "../../src/take/index.ts";

/** A take of which nothing is said, but for what a test changes. */
export function emptyTake(changes: Partial<Take> = {}): Take {
  return {
    format: "midi",
    title: null,
    ticksPerQuarter: 480,
    notes: [],
    parts: [{ id: "t1", name: "piano", staves: 1, program: 0, notes: 0 }],
    tempos: [{ tick: 0, seconds: 0, quartersPerMinute: 120 }],
    tempoStated: true,
    meters: [{ tick: 0, beats: 4, unit: 4 }],
    keys: [],
    bars: [],
    chords: [],
    texts: [],
    pedal: [],
    swing: null,
    warnings: [],
    ...changes,
  };
}
