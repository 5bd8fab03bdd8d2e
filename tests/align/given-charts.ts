/** Takes on their own chart and on wrong ones, laid as the program lays them, with what is then said of the chart. */
import { generateTake } from "../../corpus/generator/generate-take.ts";
import { randomSpec } from "../../corpus/generator/random-spec.ts";
import { align, keyMargin, placeNotes } from "../../src/align/index.ts";
import type { LineTables } from "../../src/align/lattice/line-model.ts";
import type { Anchor } from "../../src/align/types.ts";
import { type Chart, chordSpans, keyOn, transposeChart } from "../../src/chart/index.ts";
import {
  type ChartFit,
  type CompingFeatures,
  compingFeatures,
  hearChart,
  type LineFeatures,
  lineFeatures,
  lineOdds,
  weighChart,
  withChartDoubt,
} from "../../src/harmony/index.ts";
import { readTake } from "../../src/ingest/index.ts";
import { partHands } from "../../src/parting/part-hands.ts";
import { findPhrases } from "../../src/rhythm/index.ts";
import { type Alignment, Problem, type Take } from "../../src/take/index.ts";
import { tablesOfOthers } from "./count-solos.ts";
import { prepare } from "./human-conditions.ts";
import { type Condition, readSolos } from "./human-solos.ts";
import { readTwoHanded } from "./two-handed.ts";

/** Charts that share more of their bars are kin (a blues and a blues): neither is wrong for the other. [practice] */
const KIN = 0.3;
/** Half steps that a chart is too high: its nearest neighbour, and the key whose chords it shares most of. */
const RAISED = [1, 5] as const;
/** Charts of other tunes that each take is tried on. */
const OTHERS = 2;

export interface Trial {
  readonly id: string;
  /** "own", "+1", "+5" or "other". */
  readonly kind: string;
  /** Null where the take was refused on this chart. */
  readonly found: Found | null;
}

export interface Found {
  readonly fit: ChartFit | null;
  /** What the hand that comps gives; null for a line alone. */
  readonly comping: CompingFeatures | null;
  /** What a line alone gives; null beside a hand that comps. */
  readonly line: LineFeatures | null;
  /** How sure its bars are on the whole as they were laid, and with the doubt about its chart in it. */
  readonly sure: number;
  readonly confidence: number;
  readonly method: Alignment["method"];
}

interface OnChart {
  readonly id: string;
  readonly take: Take;
  readonly chart: Chart;
  readonly tempo: number | null;
  readonly anchors: readonly Anchor[];
  /** Tables of lines by other players; left out where those in use saw no take of its kind. */
  readonly tables?: LineTables;
}

/** Solos of one half under a condition, each to be laid and weighed by tables of other players. */
export function soloTakes(half: 0 | 1, most: number, condition: Condition): OnChart[] {
  return readSolos(half, most).map((solo) => ({
    id: solo.id,
    chart: solo.chart,
    ...prepare(solo, condition),
    tables: tablesOfOthers(solo),
  }));
}

/** Takes of the generator in which a hand comps, every other one without a click. */
export function compedTakes(most: number, seed: number): OnChart[] {
  return Array.from({ length: most }, (_, i) => {
    const spec = randomSpec(seed + i, { free: i % 2 === 1 });
    const take = readTake(generateTake(seed + i, spec).bytes, { name: `${seed + i}.mid` });
    return { id: `${seed + i}`, take, chart: spec.chart, tempo: null, anchors: [] };
  });
}

/** Pieces that people played with both hands, of at most so many beats. */
export const twoHandedTakes = (most: number): OnChart[] =>
  readTwoHanded("all", most).map(({ id, take, chart }) => ({ id, take, chart, tempo: null, anchors: [] }));

/** Each take on its own chart, on that in two other keys and on those of two others in its meter. */
export function givenCharts(takes: readonly OnChart[]): Trial[] {
  return takes.flatMap((one, i) => {
    const rivals = takes.filter(
      ({ chart }) => chart.meter.beats === one.chart.meter.beats && sharedBars(chart, one.chart) < KIN,
    );
    // Rivals from all over the list, the same ones each time.
    const others = Array.from({ length: Math.min(OTHERS, rivals.length) }, (_, k) => {
      return rivals[(7 * i + 3 * k) % rivals.length]!.chart;
    });
    const charts: [string, Chart][] = [
      ["own", one.chart],
      ...RAISED.map((by): [string, Chart] => [`+${by}`, raised(one.chart, by)]),
      ...others.map((chart): [string, Chart] => ["other", chart]),
    ];
    return charts.map(([kind, chart]) => ({ id: one.id, kind, found: layOn(one, chart) }));
  });
}

function layOn({ take, tempo, anchors, tables }: OnChart, chart: Chart): Found | null {
  const { hands } = partHands(take, { soloPart: null, soloStaff: null, soloHand: null });
  const spans = chordSpans(chart);
  try {
    const laid = align(take, chart, hands, { method: "auto", tempo, anchors, lines: tables });
    const placed = placeNotes(take, chart, spans, hands, laid);
    const solo = placed.filter((note) => note.solo);
    const other = placed.filter((note) => !note.solo);
    const breaths = new Set(findPhrases(solo, chart, laid).map(({ lastNote }) => lastNote));
    const margin = () => keyMargin(solo, chart, tables);
    const fit = weighChart(solo, other, breaths, chart, spans, { margin, sure: laid.confidence });
    const { line, heard } = hearChart(solo, other, breaths, chart, spans);
    const { confidence } = withChartDoubt(laid, fit, false);
    const comping = heard === null ? null : compingFeatures(heard.chordTones, lineOdds(line));
    const alone = heard !== null || line === null ? null : lineFeatures(lineOdds(line), margin());
    return { fit, comping, line: alone, sure: laid.confidence, confidence, method: laid.method };
  } catch (error) {
    if (error instanceof Problem) return null;
    throw error;
  }
}

const raised = (chart: Chart, by: number): Chart =>
  transposeChart(chart, keyOn((chart.key.tonicClass + by) % 12, chart.key.mode));

/** Share of bars whose chords have the same roots, the shorter chart going round. */
function sharedBars(a: Chart, b: Chart): number {
  const roots = ({ bars }: Chart) =>
    bars.map(({ chords }) => chords.map(({ chord }) => chord?.rootClass ?? "").join(" "));
  const [one, other] = [roots(a), roots(b)];
  const length = Math.max(one.length, other.length);
  const same = Array.from({ length }, (_, k) => one[k % one.length] === other[k % other.length]);
  return same.filter(Boolean).length / length;
}
