/** A chart whose bars are counted wrong: the same chords on the same beats, in bars of another length. */
import { freeForm } from "../../src/align/free/free-form.ts";
import { type Chart, parseChart } from "../../src/chart/index.ts";

/** Meters that are taken for each other: three for two or four, and the other way round; null for others. */
export function otherMeter({ beats, unit }: Chart["meter"]): Chart["meter"] | null {
  const compound = unit >= 8 && beats > 3 && beats % 3 === 0;
  const inBar = compound ? beats / 3 : beats;
  const others = inBar === 3 ? 4 : inBar === 2 || inBar === 4 ? 3 : null;
  return others === null ? null : { beats: compound ? 3 * others : others, unit };
}

/** The chart with the same chord on each beat, in bars of another meter. */
export function rebarred(chart: Chart, meter: Chart["meter"]): Chart {
  const { chords, chordAt, quarters } = freeForm(chart);
  const inBar = (4 * meter.beats) / meter.unit / quarters;
  const share = meter.beats / inBar;
  const names = Array.from(chordAt, (c) => (c < 0 ? "N.C." : chords[c]!.symbol));
  const bars: string[] = [];
  for (let b = 0; b * inBar < names.length; b++) {
    const runs: [string, number][] = [];
    for (let k = 0; k < inBar; k++) {
      const name = names[Math.min(names.length - 1, b * inBar + k)]!;
      if (runs.at(-1)?.[0] === name) runs.at(-1)![1] += share;
      else runs.push([name, share]);
    }
    bars.push(runs.map(([name, length]) => `${name}:${length}`).join(" "));
  }
  return parseChart(`key: C\nmeter: ${meter.beats}/${meter.unit}\n| ${bars.join(" | ")} |`);
}

/** The chart with the same chords in each bar, in bars of another meter: each begins on the beat nearest to its share of the bar. */
export function stretched(chart: Chart, meter: Chart["meter"]): Chart {
  const bars = chart.bars.map(({ chords }) => {
    const begun = new Map<number, string>([[0, "N.C."]]);
    for (const { chord, beat } of chords) {
      const begin = Math.round(((beat - 1) * meter.beats) / chart.meter.beats);
      if (begin < meter.beats) begun.set(begin, chord?.symbol ?? "N.C.");
    }
    const begins = [...begun].sort(([a], [b]) => a - b);
    return begins.map(([from, name], k) => `${name}:${(begins[k + 1]?.[0] ?? meter.beats) - from}`).join(" ");
  });
  return parseChart(`key: C\nmeter: ${meter.beats}/${meter.unit}\n| ${bars.join(" | ")} |`);
}
