/** Bars of the chart that are played round and round: which are chosen, and the chart that they are. */
import { chartText } from "../../src/chart/chart-text.ts";
import { isKey, keyInBar } from "../../src/chart/key.ts";
import type { Chart } from "../../src/chart/types.ts";

/** From and to, both played; bars of the chart, from 1. Null: the whole form. */
export type BarLoop = { readonly from: number; readonly to: number } | null;

/**
 * What a press on a bar makes of the choice: the first press begins a loop there, the second one ends it (on whichever
 * side), and a third one begins anew. A bar that is alone is let go of by a press on it.
 *
 * @example pressBar(pressBar(null, 5), 8) // { from: 5, to: 8 }
 */
export function pressBar(loop: BarLoop, bar: number): BarLoop {
  if (loop === null || loop.from !== loop.to) return { from: bar, to: bar };
  if (loop.from === bar) return null;
  return { from: Math.min(loop.from, bar), to: Math.max(loop.to, bar) };
}

/** The loop in a chart of so many bars; null when it is the whole form, or lies outside it. */
export function loopWithin(loop: BarLoop, bars: number): BarLoop {
  if (loop === null || loop.from > bars) return null;
  const to = Math.min(loop.to, bars);
  return loop.from === 1 && to === bars ? null : { from: loop.from, to };
}

/**
 * The bars of a loop as a chart of their own, so that a take of it is read against what was played: its first bar is
 * bar 1, and one time round is one chorus.
 */
export function loopedChart(chart: Chart, loop: BarLoop): Chart {
  const within = loopWithin(loop, chart.bars.length);
  if (within === null) return chart;
  const bars = chart.bars.slice(within.from - 1, within.to);
  const key = keyInBar(chart, bars[0]!);
  return {
    ...chart,
    name: [chart.name, barsWords(within)].filter(Boolean).join(", "),
    key,
    bars: bars.map((bar, i) => {
      const own = keyInBar(chart, bar);
      return { ...bar, number: i + 1, key: isKey(own, key) ? null : own };
    }),
  };
}

/** The looped bars in the chart format; null for the whole form, which is sent as it was chosen. */
export function loopText(chart: Chart, loop: BarLoop): string | null {
  return loopWithin(loop, chart.bars.length) === null ? null : chartText(loopedChart(chart, loop));
}

/** "bars 5 to 8", "bar 5" */
function barsWords(loop: NonNullable<BarLoop>): string {
  return loop.from === loop.to ? `bar ${loop.from}` : `bars ${loop.from} to ${loop.to}`;
}

/** What is said beside the row while nobody plays. */
export function loopWords(loop: BarLoop): string {
  if (loop === null)
    return "The whole form goes round. Press a bar to loop it, then another one for the end.";
  const end = loop.from === loop.to ? " Press another bar for the end." : "";
  const words = barsWords(loop);
  return `${words[0]!.toUpperCase()}${words.slice(1)} ${loop.from === loop.to ? "goes" : "go"} round.${end}`;
}
