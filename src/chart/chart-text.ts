/**
 * The chart format: text that a musician can type.
 *
 *     key: F
 *     meter: 4/4
 *     idiom: blues
 *     | F7 | Bb7 | F7 | Cm7 F7 |
 *     | Bb7:3 Bdim7:1 | % | F7{Lydian b7} | D7(b9) |
 *
 * Bars stand between bar lines; the end of a line ends a bar. Chords share their bar evenly; `:N` gives a chord N
 * beats in the meter's unit, and the others share what is left; `F7 / / /` counts beats by strokes. `%` repeats the
 * bar before, `|: ... :|` plays a passage twice, `|:3 ... :|` or `|: ... :|3` three times, `|1 ... :|2 ...` are
 * endings, and Segno, Coda, To Coda, Fine, D.C. and D.S. are taken as in notation. `{name}` chooses a scale for one
 * chord. `N.C.` is silence of the harmony. Headings (`name`, `key`, `meter`, `idiom`, `names`) stand before the first
 * bar; `key: Eb` on a line among the bars changes the key from there on; `names: german` and `names: solfege` say how notes are named. What else people type and paste is read where it
 * is clear, asked about where it could mean something else, and refused with its mend where it cannot be known.
 */
import { Problem, type Warning } from "../take/index.ts";
import { oneLine } from "./chart-headings.ts";
import { ChartReader, MAX_CHART_BARS } from "./chart-reader.ts";
import { findKey } from "./find-key.ts";
import { isKey, keyInBar, keyName, parseKey } from "./key.ts";
import type { Chart, ChartBar, Idiom, Key, Meter } from "./types.ts";

export const MAX_CHART_TEXT = 50_000;

interface Defaults {
  readonly name?: string;
  readonly key?: string;
  readonly idiom?: Idiom;
}

/**
 * Reads the chart format. What headings leave open comes from `defaults`; a key or an idiom that neither gives is
 * found from the chords, and the meter is 4/4.
 *
 * Throws `Problem` whose `where` is "line L, bar B" (bars as written): "not-a-chord", "note-names", "empty-bar",
 * "beats-do-not-fit", "bars-unclear", "repeat-sign", "nothing-to-repeat", "section-without-bars", "words-in-chart",
 * "unknown-heading", "not-a-key", "key-without-bars", "not-a-meter", "not-an-idiom", "not-a-scale", "empty-chart",
 * "chart-too-long".
 * @example parseChart("key: F\n| F7 | Bb7 |").bars.length // 2
 */
export function parseChart(text: string, defaults: Defaults = {}): Chart {
  return readChart(text, defaults).chart;
}

/** A chart, and warnings for what was understood rather than read: each asks for what would make it plain. */
export interface ChartReading {
  readonly chart: Chart;
  readonly warnings: readonly Warning[];
}

/** As `parseChart`, with the warnings. */
export function readChart(text: string, defaults: Defaults = {}): ChartReading {
  if (text.length > MAX_CHART_TEXT) {
    throw new Problem(
      "chart-too-long",
      `The chart has ${text.length} characters`,
      null,
      `Write at most ${MAX_CHART_TEXT} characters and ${MAX_CHART_BARS} bars: one chorus.`,
    );
  }
  const reader = new ChartReader();
  for (const [index, line] of text.split(/\r\n|\r|\n/).entries()) reader.readLine(line, index + 1);
  const { bars, warnings } = reader.finish();
  const heading = reader.headings;
  const keyText = heading.key ?? (defaults.key === undefined ? null : parseKey(defaults.key));
  const idiomText = heading.idiom ?? defaults.idiom ?? null;
  const atHome = bars.filter(({ key }) => key === null);
  const found = findKey(atHome, { key: keyText, idiom: idiomText });
  const chart = {
    name: heading.name ?? (oneLine(defaults.name ?? "") || null),
    key: found.key,
    meter: heading.meter,
    idiom: found.idiom,
    bars: bars.map((bar) => ({ ...bar, key: isKey(bar.key, found.key) ? null : bar.key })),
  };
  return { chart, warnings };
}

/**
 * Prints a chart in the chart format, four bars a line, chords in the house style, with all headings. Reading it
 * gives the same chart, except that `text` of each chord is then its house style.
 */
export function chartText(chart: Chart): string {
  const lines = chart.name === null ? [] : [`name: ${chart.name}`];
  lines.push(`key: ${keyName(chart.key)}`, `meter: ${chart.meter.beats}/${chart.meter.unit}`);
  lines.push(`idiom: ${chart.idiom}`);
  for (const { key, bars } of keyStretches(chart)) {
    if (key !== null) lines.push(`key: ${keyName(key)}`);
    for (let i = 0; i < bars.length; i += 4) {
      const texts = bars.slice(i, i + 4).map((bar) => barText(bar, chart.meter));
      lines.push(`| ${texts.join(" | ")} |`);
    }
  }
  return `${lines.join("\n")}\n`;
}

/** Bars in a row in one key, with that key where it is not the one of the bars before (of the chart for the first). */
function keyStretches(chart: Chart): { readonly key: Key | null; readonly bars: ChartBar[] }[] {
  const stretches: { key: Key | null; bars: ChartBar[] }[] = [];
  let before = chart.key;
  for (const bar of chart.bars) {
    const key = keyInBar(chart, bar);
    const changes = !isKey(key, before);
    if (changes || stretches.length === 0) stretches.push({ key: changes ? key : null, bars: [bar] });
    else stretches.at(-1)!.bars.push(bar);
    before = key;
  }
  return stretches;
}

/** One bar in the chart format, "F7:3 Bdim7:1", without its bar lines. */
export function barText(bar: ChartBar, meter: Meter): string {
  const share = meter.beats / bar.chords.length;
  const even = bar.chords.every((chord) => chord.beats === share);
  return bar.chords
    .map(
      ({ symbol, scale, beats }) => symbol + (scale === null ? "" : `{${scale}}`) + (even ? "" : `:${beats}`),
    )
    .join(" ");
}
