/** Right and wrong charts for the open solos, with what their notes say of each. */
import { type Chart, type ChordSpan, chordSpans, parseChart } from "../../src/chart/index.ts";
import {
  type FitFeatures,
  type FitNote,
  featuresIn,
  fitNotes,
  keysFit,
  kindsOf,
} from "../../src/harmony/chart-fit.ts";
import { lastOfPhrases, placedByTruth, truePositions } from "./open-placed.ts";
import { type OpenSolo, openSolos } from "./open-solos.ts";

export interface ChartTrial {
  readonly solo: string;
  readonly half: 0 | 1;
  /** "own", "other", or "+1" to "+11" half steps that the chart is too high. */
  readonly kind: string;
  readonly features: FitFeatures;
}

export interface SoloOnChart {
  readonly solo: OpenSolo;
  readonly chart: Chart;
  readonly spans: readonly ChordSpan[];
  readonly positions: readonly number[];
}

/** Other charts that each solo is tried on. */
const OTHERS = 6;
/** Charts that share more of their roots are kin (a blues and a blues): neither is wrong for the other. [practice] */
const SAME_TUNE = 0.3;

export function solosOnCharts(): SoloOnChart[] {
  return openSolos().map((solo) => {
    const chart = parseChart(solo.chart);
    return { solo, chart, spans: chordSpans(chart), positions: truePositions(solo, chart) };
  });
}

/** The notes of a solo under the chords of a chart, by annotated places. */
export function notesUnder(solo: SoloOnChart, other: SoloOnChart): FitNote[] {
  return fitNotes(
    placedByTruth(solo.solo, solo.positions, other.chart, other.spans),
    lastOfPhrases(solo.solo),
    other.chart,
    other.spans,
  );
}

/** Every solo on its own chart in twelve keys and on six charts of others in its meter. */
export function chartTrials(half: 0 | 1, all: readonly SoloOnChart[] = solosOnCharts()): ChartTrial[] {
  const random = seeded(12345);
  return all
    .filter(({ solo }) => solo.half === half)
    .flatMap((solo) => {
      const { id } = solo.solo;
      const own = keysFit(notesUnder(solo, solo), kindsOf(solo.spans));
      if (own === null) return [];
      const keys = Array.from({ length: 12 }, (_, k) => ({
        solo: id,
        half,
        kind: k === 0 ? "own" : `+${k}`,
        features: featuresIn(own, k),
      }));
      const rivals = all.filter(
        ({ chart, solo: other }) =>
          chart.meter.beats === solo.chart.meter.beats && other.chart !== solo.solo.chart,
      );
      // Kin are passed over as they are drawn: comparing every pair of charts would take most of the time.
      const others = Array.from({ length: OTHERS }, (): ChartTrial[] => {
        const rival = rivals[Math.floor(random() * rivals.length)]!;
        if (sharedRoots(solo, rival) >= SAME_TUNE) return [];
        const fit = keysFit(notesUnder(solo, rival), kindsOf(rival.spans));
        return fit === null ? [] : [{ solo: id, half, kind: "other", features: featuresIn(fit, 0) }];
      });
      return [...keys, ...others.flat()];
    });
}

/** Share of beats of the longer chart on which both have the same root, each going round and round. */
function sharedRoots(a: SoloOnChart, b: SoloOnChart): number {
  const quarters = (chart: Chart) => (chart.bars.length * chart.meter.beats * 4) / chart.meter.unit;
  const beats = Math.max(quarters(a.chart), quarters(b.chart));
  const rootAt = (on: SoloOnChart, beat: number) =>
    on.spans.findLast(({ start }) => start <= beat % quarters(on.chart))?.chord?.rootClass;
  let same = 0;
  for (let beat = 0; beat < beats; beat++) if (rootAt(a, beat) === rootAt(b, beat)) same++;
  return same / beats;
}

/** A linear congruential generator, so that every run tries the same charts. */
function seeded(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1103515245) + 12345) & 0x7fffffff;
    return state / 0x80000000;
  };
}
