/** The chart as a ring of beats: for each beat of the form the chord, its family, and where in bar and chord it falls. */
import { quartersPerBar } from "../../chart/index.ts";
import type { Chart, Chord } from "../../chart/types.ts";
import { mod } from "../../pitch/index.ts";
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

/** Bars before the form that are heard as leading into it; what they are played over is half known. */
export const LEAD_BARS = 16;

export interface FormBeats {
  /** Beats of one chorus. */
  readonly count: number;
  /**
   * Beats before it that lead into it, and all states in which a take may be: the lead's beats, then the form's. After
   * the last comes the form's first again.
   */
  readonly lead: number;
  readonly states: number;
  /** Quarter notes in a beat, and beats in a bar. */
  readonly quarters: number;
  readonly bar: number;
  /** Index of the chord that sounds in each half of a beat: `chord[2 * beat + half]`. */
  readonly chord: Uint16Array;
  /** 1 where a chord begins with the half of a beat. */
  readonly change: Uint8Array;
  /** The chord that begins within the next two beats, and the one that ended within the last; -1 where there is none. */
  readonly next: Int16Array;
  readonly previous: Int16Array;
  readonly chords: readonly (Chord | null)[];
  readonly family: Int8Array;
}

/** Half beats before a change in which lines may stand for the chord to come, and after it for the one before. */
const AHEAD = 4;
const BEHIND = 2;

export function formBeats(chart: Chart): FormBeats {
  const quarters = beatCells(chart) / CELLS;
  const bar = Math.round(quartersPerBar(chart.meter) / quarters);
  const count = bar * chart.bars.length;
  const stretches = chartStretches(chart);
  const halves = 2 * count;
  const lead = LEAD_BARS * bar;
  const at = (position: number) => stretches.findLastIndex(({ start }) => start <= position + 1e-6);
  const chord = Uint16Array.from({ length: halves }, (_, q) => Math.max(0, at((q * quarters) / 2)));
  const starts = Uint8Array.from(chord, (s, q) =>
    Math.abs(stretches[s]!.start - (q * quarters) / 2) < 1e-6 ? 1 : 0,
  );
  const near = (q: number, from: number, to: number, step: 1 | -1) => {
    for (let d = from; d <= to; d++) {
      const here = mod(q + step * d, halves);
      if (starts[here] === 1) return chord[step === 1 ? here : mod(here - 1, halves)]!;
    }
    return -1;
  };
  const chords = stretches.map((one) => one.chord);
  return {
    count,
    lead,
    states: lead + count,
    quarters,
    bar,
    chord,
    change: starts,
    next: Int16Array.from(chord, (_, q) => near(q, 1, AHEAD, 1)),
    previous: Int16Array.from(chord, (_, q) => near(q, 0, BEHIND, -1)),
    chords,
    family: Int8Array.from(chords, familyOf),
  };
}
