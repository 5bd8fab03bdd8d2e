/** The chart as a ring of beats: for each beat of the form the chord, its family, and where in bar and chord it falls. */
import { quartersPerBar } from "../../chart/index.ts";
import type { Chart, Chord } from "../../chart/types.ts";
import { chartStretches } from "../chart-evidence.ts";
import { beatCells, CELLS } from "../metre.ts";

/** Families of chords whose notes lines treat alike. */
export const FAMILIES = [
  "major",
  "minor",
  "dominant",
  "altered",
  "half-diminished",
  "suspended",
  "diminished",
] as const;

/** Family of a chord as index into `FAMILIES`; -1 for none. */
function familyOf(chord: Chord | null): number {
  if (chord === null) return -1;
  switch (chord.quality) {
    case "minor":
    case "minor-seventh":
    case "minor-sixth":
    case "minor-major":
      return 1;
    case "dominant":
      return chord.altered || chord.tones.some(({ degree }) => /^(b9|#9|#5|b13|b5)$/.test(degree)) ? 3 : 2;
    case "half-diminished":
      return 4;
    case "suspended":
      return 5;
    case "diminished":
    case "diminished-seventh":
      return 6;
    case "augmented":
      return 3;
    default:
      return 0;
  }
}

export interface FormBeats {
  readonly count: number;
  /** Quarter notes in a beat, and beats in a bar. */
  readonly quarters: number;
  readonly bar: number;
  /** Index of the chord that sounds when the beat begins, and in its second half. */
  readonly stretch: Uint16Array;
  readonly late: Uint16Array;
  /** 1 where a chord begins on the beat. */
  readonly change: Uint8Array;
  readonly chords: readonly (Chord | null)[];
  readonly family: Int8Array;
}

export function formBeats(chart: Chart): FormBeats {
  const quarters = beatCells(chart) / CELLS;
  const bar = Math.round(quartersPerBar(chart.meter) / quarters);
  const count = bar * chart.bars.length;
  const stretches = chartStretches(chart);
  const at = (position: number) => {
    let found = 0;
    stretches.forEach(({ start }, s) => {
      if (start <= position + 1e-6) found = s;
    });
    return found;
  };
  const stretch = Uint16Array.from({ length: count }, (_, p) => at(p * quarters));
  const late = Uint16Array.from({ length: count }, (_, p) => at((p + 0.5) * quarters));
  const change = Uint8Array.from(stretch, (s, p) =>
    Math.abs(stretches[s]!.start - p * quarters) < 1e-6 ? 1 : 0,
  );
  const chords = stretches.map(({ chord }) => chord);
  return { count, quarters, bar, stretch, late, change, chords, family: Int8Array.from(chords, familyOf) };
}
