/**
 * Whether bars that were laid without a click or a told tempo have as many beats as the chart gives them. A chart in 3/4
 * fits what was played in 4/4 bar by bar at three quarters of its tempo: the bars are then right and their beats are not,
 * and what comes back with the bars tells nothing. So the take is laid once more with the other number of beats in the
 * same bars, and the two ways to lay it are weighed.
 */
import { median } from "d3-array";
import type { Chart, ChartBar } from "../chart/types.ts";
import { secondsAt, type Take, type TimeMap } from "../take/index.ts";
import { layAtPace, lineEvidence, usualPace } from "./lattice/lay-line.ts";
import { strokesOf } from "./lattice/line-features.ts";
import { SHORTEST_COUNTED } from "./lattice/line-model.ts";
import { type LaidOnBeats, LEAST_NOTES, meterWarning } from "./meter-doubt.ts";
import type { AlignOptions, NoteHand } from "./types.ts";

/** Beats that a bar may have in truth, by those that its chart gives it. */
const OTHER_BEATS: Readonly<Record<number, number>> = { 2: 3, 3: 4, 4: 3 };

/**
 * What a nat of log evidence is worth in log odds: its powers were fitted for places in the form, not for this. Of 29 solos
 * of the fitted half with a hand that plays the chart, of 40 free takes of the generator and of 41 steady ones of the
 * simulator, the most by which the wrong number of beats explains one is 7 nats, 1.5 and 3 of the others; with this worth
 * it takes more than 8 to ask. Of such charts with the wrong number 18 of 40 and 30 of 41 are told by so many.
 */
const NAT = 0.25;

/**
 * Share of charts whose bars have the number of beats that was played [practice], and how likely another must be to be asked
 * about. A right one that is explained 4 nats better by another keeps .95 of its sureness; from 8.4 nats on it is asked.
 */
const RIGHT_BEATS = 0.97;
const ASKED_FROM = 0.2;

/** What was found, with the doubt about the number of beats in it. */
export function withBeatsDoubt<T extends LaidOnBeats>(
  found: T,
  take: Take,
  chart: Chart,
  hands: readonly NoteHand[],
  { tempo, anchors, lines }: Pick<AlignOptions, "tempo" | "anchors" | "lines">,
): T {
  if (found.method !== "tracked" || tempo !== null || anchors.length > 0) return found;
  const { beats, unit } = chart.meter;
  const other = unit === 4 ? OTHER_BEATS[beats] : undefined;
  if (other === undefined || hands.filter(({ solo }) => !solo).length < LEAST_NOTES) return found;
  const pace = quartersPerMinute(found.map);
  // Of beats that are shorter in either way nobody knows how many strokes they have: very fast takes seem slower by a beat.
  if (Math.max(pace, (pace * other) / beats) > 60 / SHORTEST_COUNTED) return found;
  const better = betterBy(take, chart, hands, { pace, other, lines });
  const wrong = (1 - RIGHT_BEATS) * Math.exp(NAT * better);
  const right = Math.min(1, 1 / (RIGHT_BEATS + wrong));
  const asked = wrong / (RIGHT_BEATS + wrong) > ASKED_FROM;
  return {
    ...found,
    confidence: (bar: number) => right * found.confidence(bar),
    warnings: asked ? [...found.warnings, meterWarning(beats)] : found.warnings,
  };
}

/**
 * Nats by which a take is likelier with another number of beats in the same bars.
 *
 * @param pace quarter notes a minute as it was laid
 */
function betterBy(
  { notes }: Take,
  chart: Chart,
  hands: readonly NoteHand[],
  { pace, other, lines }: { pace: number; other: number; lines: AlignOptions["lines"] },
): number {
  const strokes = strokesOf(notes, hands);
  const weigh = (one: Chart) => {
    const at = (pace * one.meter.beats) / chart.meter.beats;
    const laid = layAtPace(lineEvidence(notes, strokes, one, lines), at);
    return laid === null ? null : laid.evidence + usualPace(laid.pace);
  };
  const [given, otherwise] = [weigh(chart), weigh(withBeats(chart, other))];
  return given === null || otherwise === null ? 0 : otherwise - given;
}

/** Usual pace of a map between its ends: where a take pauses or hurries, its mean is that of no beat. */
function quartersPerMinute(map: TimeMap): number {
  const [first, last] = [Math.ceil(map[0]!.position), Math.floor(map.at(-1)!.position)];
  const lengths = Array.from(
    { length: Math.max(1, last - first) },
    (_, k) => secondsAt(map, first + k + 1) - secondsAt(map, first + k),
  );
  return 60 / median(lengths)!;
}

/** The chart with so many beats in each of its bars; chords begin on the beat nearest to their share of the bar. */
function withBeats(chart: Chart, beats: number): Chart {
  const stretch = ({ chords }: ChartBar) => {
    const begins = chords.map(({ beat }) => Math.round(((beat - 1) * beats) / chart.meter.beats));
    // Of chords that come to lie on one beat the last is heard; the bar's first begins with it.
    const kept = chords.flatMap((chord, k) => {
      const from = begins[k]!;
      return from >= beats || begins[k + 1] === from ? [] : [{ chord, from }];
    });
    return kept.map(({ chord, from }, k) => {
      const begin = k === 0 ? 0 : from;
      return { ...chord, beat: begin + 1, beats: (kept[k + 1]?.from ?? beats) - begin };
    });
  };
  return {
    ...chart,
    meter: { ...chart.meter, beats },
    bars: chart.bars.map((bar) => ({ ...bar, chords: stretch(bar) })),
  };
}
