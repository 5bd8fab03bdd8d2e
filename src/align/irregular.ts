/** Bars and beats that were left out or put in, as an alignment names them. */
import type { Chart } from "../chart/types.ts";
import type { IrregularBars, Warning } from "../take/index.ts";
import { placeOf } from "./form.ts";
import type { Evidence } from "./lattice/evidence.ts";
import {
  type FormSlip,
  formSlips,
  inSqueeze,
  onFollowed,
  type SlipsSought,
} from "./lattice/irregular-bars.ts";
import type { Reading } from "./lattice/lay-line.ts";
import { steadied } from "./lattice/steadied.ts";
import { isSteady, onBeats } from "./on-beats.ts";
import { smoothMap } from "./smooth-map.ts";

/**
 * Where a take leaves its form under beats that are certain, in the order of the take.
 *
 * @param beats seconds of the beats, from the first of the take on
 * @param firstBeat number of the first, from the first beat of the first chorus
 */
export function irregularBars(
  evidence: Evidence,
  beats: Float64Array,
  firstBeat: number,
  chart: Chart,
  sought: SlipsSought,
): readonly IrregularBars[] {
  const { quarters, bar: size } = evidence.form;
  return [...formSlips(evidence, beats, firstBeat, sought)]
    .sort((a, b) => a.beat - b.beat)
    .map((slip): IrregularBars => {
      const { chorus, bar } = placeOf(barLine(slip, size) * quarters, chart, Number.MAX_SAFE_INTEGER);
      const kind = slip.beats > 0 ? "missing" : "extra";
      return { chorus, bar, kind, beats: Math.abs(slip.beats) * quarters, side: slip.side };
    });
}

/**
 * A reading of a take without a click in which a bar that was left out or put in is no longer told as tempo, with the
 * bar; the same reading where none was, with what it leaves of the form in steady time.
 */
export function withoutSqueeze(
  evidence: Evidence,
  reading: Reading,
  chart: Chart,
): { readonly reading: Reading; readonly irregular: readonly IrregularBars[] } {
  for (const { reading: steady, beats } of steadied(evidence, reading)) {
    const irregular = irregularBars(
      evidence,
      steady.beats,
      steady.firstBeat,
      chart,
      inSqueeze(evidence.form),
    );
    const [only, more] = irregular;
    const size = Math.abs(beats) * evidence.form.quarters;
    if (only === undefined || more !== undefined || only.beats !== size) continue;
    if ((only.kind === "missing") !== beats < 0) continue;
    const hand = onBeats(evidence, smoothMap(evidence, steady));
    if (hand === null || isSteady(hand)) return { reading: steady, irregular };
  }
  const { beats, firstBeat } = reading;
  return { reading, irregular: irregularBars(evidence, beats, firstBeat, chart, onFollowed(evidence.form)) };
}

/** Whole bars are left out from a bar line on: the cut lies near one, as far as notes tell. */
function barLine({ beat, beats }: FormSlip, size: number): number {
  return Math.abs(beats) % size === 0 ? Math.round(beat / size) * size : beat;
}

/** Sureness that is left of a bar that lies beside the form: one in ten such places may be none. [practice] */
const BESIDE = 0.1;

/** How sure bars are, with the doubt about those that lie beside the form. */
export function doubtedBeside(
  confidence: (bar: number) => number,
  irregular: readonly IrregularBars[],
  chart: Chart,
): (bar: number) => number {
  if (irregular.length === 0) return confidence;
  const isBeside = (at: number) =>
    irregular.some(({ chorus, bar, side }) => {
      const place = (chorus - 1) * chart.bars.length + bar - 1;
      return side === "after" ? at >= place : at < place;
    });
  return (bar) => (isBeside(bar) ? BESIDE : 1) * confidence(bar);
}

/** What an account says of them. */
export function irregularWarnings(bars: readonly IrregularBars[], quartersPerBar: number): Warning[] {
  return bars.map(({ chorus, bar, kind, beats, side }) => {
    const bars = beats / quartersPerBar;
    const far = bars === 2 ? "two bars" : bars === 1 ? "a bar" : bars === 0.5 ? "half a bar" : "a beat";
    const what = far.charAt(0).toUpperCase() + far.slice(1);
    const onwards = (kind === "missing") === (side === "after") ? "further on" : "further back";
    const place = `bar ${bar} of chorus ${chorus}`;
    const seem = bars === 2 ? "seem" : "seems";
    const changed = kind === "missing" ? `${seem} to be left out` : `too many ${seem} to be played`;
    const until = side === "after" ? "from there on" : "up to there";
    return {
      code: `${bars < 0.5 ? "beat" : "bar"}-${kind}`,
      message: `${what} ${changed} near ${place}: ${until} the notes fit the chart better ${far} ${onwards}; if it is so, say it under "Is this where we are?"`,
      where: place,
    };
  });
}
