/** The chart as a ring of beats, for takes that both hands play freely. */
import { quartersPerBar } from "../../chart/index.ts";
import type { Chart, Chord } from "../../chart/types.ts";
import { mod12 } from "../../pitch/index.ts";
import { chartStretches } from "../chart-evidence.ts";

export interface FreeForm {
  /** Beats of a chorus, and of a bar. */
  readonly count: number;
  readonly bar: number;
  /** Quarter notes in a beat. */
  readonly quarters: number;
  /** Chords that differ, and for each beat the index of the one that sounds on it; -1 for none. */
  readonly chords: readonly Chord[];
  readonly chordAt: Int32Array;
}

/** A beat is what the meter counts: three eighths are one only where there are six or more of them. */
export function quartersOfBeat({ meter: { beats, unit } }: Chart): number {
  const compound = unit >= 8 && beats > 3 && beats % 3 === 0;
  return (compound ? 12 : 4) / unit;
}

export function freeForm(chart: Chart): FreeForm {
  const quarters = quartersOfBeat(chart);
  const bar = Math.round(quartersPerBar(chart.meter) / quarters);
  const count = bar * chart.bars.length;
  const stretches = chartStretches(chart);
  const chords: Chord[] = [];
  const chordAt = new Int32Array(count).fill(-1);
  let s = 0;
  for (let k = 0; k < count; k++) {
    const at = k * quarters + 1e-6;
    while (s + 1 < stretches.length && stretches[s + 1]!.start <= at) s++;
    const chord = stretches[s]!.chord;
    if (chord === null) continue;
    let found = chords.findIndex(({ symbol }) => symbol === chord.symbol);
    if (found < 0) found = chords.push(chord) - 1;
    chordAt[k] = found;
  }
  return { count, bar, quarters, chords, chordAt };
}

/** What a pitch class is in a chord: root, third, fifth, seventh, anything else. */
export const ROLES = 5;

export function roleIn(chord: Chord, pitchClass: number): number {
  const above = mod12(pitchClass - chord.rootClass);
  switch (chord.tones.find(({ semitones }) => semitones === above)?.role) {
    case "root":
      return 0;
    case "third":
      return 1;
    case "fifth":
      return 2;
    case "seventh":
      return 3;
    default:
      return 4;
  }
}
