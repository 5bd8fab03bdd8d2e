/** A chart as it sounds: bass and shells, bar after bar at a steady tempo, so that the ear can check what was read. */
import { parseChart } from "../../src/chart/chart-text.ts";
import { quartersPerBar } from "../../src/chart/index.ts";
import { backingOf } from "../sound/backing.ts";
import type { SnippetNote } from "../sound/snippet.ts";

/** Quarter notes a minute: slow enough to follow the bars with the eye, fast enough for a whole chorus. [practice] */
const TEMPO = 132;

export interface ChartSound {
  readonly notes: readonly SnippetNote[];
  /** Seconds of each bar, and bars in all. */
  readonly barSeconds: number;
  readonly bars: number;
}

/** @param text a chart in the chart format, its bars in the order of playing */
export function chartSound(text: string): ChartSound {
  const chart = parseChart(text);
  const barSeconds = (quartersPerBar(chart.meter) * 60) / TEMPO;
  const bars = chart.bars.map((_, at) => ({
    bar: at + 1,
    start: at * barSeconds,
    end: (at + 1) * barSeconds,
  }));
  const notes = backingOf(chart, bars, new Set(["bass", "shells"]), { steady: true });
  return {
    notes: notes.map(({ pitch, onset, duration }) => ({ pitch, at: onset, seconds: duration })),
    barSeconds,
    bars: bars.length,
  };
}
