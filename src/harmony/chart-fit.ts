/**
 * Whether the notes of a take fit the chart that they are heard against: the chart is weighed against itself in the
 * eleven other keys, and where it is in doubt against the usual forms as well.
 *
 * Each note of the line gives bits of evidence: how much likelier its place in the chord is than any of twelve would
 * be, given how it is left (by step, by leap, before a breath). A line that runs by step touches everything, so a
 * note that is left by leap or before a breath tells more. A logistic regression over the sum, its margin over the
 * other keys and the share of chord tones says how likely the chart is the right one, where wrong charts are as
 * frequent as right ones. Tables and weights are learned from half of the open solos with their annotated beats and
 * tested on the other half (`npm run report -- chart-fit`).
 */
import { bisectRight, mean } from "d3-array";
import { type Chart, type ChordSpan, FORMS, keyName, keyOn } from "../chart/index.ts";
import { logistic } from "../statistics/logistic.ts";
import type { PlacedNote } from "../take/index.ts";
import { byComping, compingFeatures, keyOfComping } from "./comping-fit.ts";
import { harmonicRoleOf } from "./harmonic-role.ts";
import { knownForm } from "./known-forms.ts";
import { byLine, lineFeatures, lineVerdict } from "./line-fit.ts";

export type ChartVerdict = "fits" | "doubtful" | "does not fit" | "cannot be told";

export interface ChartFit {
  readonly verdict: ChartVerdict;
  /** How likely this is the chart that was played, 0 to 1, if wrong charts were as frequent as right ones. */
  readonly score: number;
  /** What fits better, the best first: a form's name, or null for the same chart, in a key. */
  readonly better: readonly { readonly chart: string | null; readonly key: string; readonly score: number }[];
}

/** From `fits` on, nothing is asked (of lines alone: `LINE_FITS`); below `wrong`, the chart is said not to fit. */
export const FIT_LIMITS = { fits: 0.84, wrong: 0.1 } as const;

/** Fewer notes over chords than this say nothing of a chart. [practice] */
const FEWEST_NOTES = 20;

/** At most this many better charts are named. */
const MOST_BETTER = 3;

/** Places in a chord whose notes behave alike. */
const KINDS = ["root", "third", "fifth", "seventh", "tension", "colour", "outside"] as const;
const CHORD_TONES = 4;
/** How a note is left. */
const LEAVINGS = ["step", "leap", "breath"] as const;

/** Share of each kind (columns as `KINDS`) among notes left by step, by leap, before a breath; learned. */
export const KIND_SHARES: Readonly<Record<(typeof LEAVINGS)[number], readonly number[]>> = {
  step: [0.127, 0.097, 0.114, 0.093, 0.307, 0.085, 0.178],
  leap: [0.151, 0.149, 0.177, 0.108, 0.241, 0.066, 0.108],
  breath: [0.219, 0.143, 0.183, 0.089, 0.224, 0.053, 0.089],
};

/** Learned weights of the features, in the order of `FitFeatures`; the first is the constant. */
export const FIT_WEIGHTS: readonly number[] = [-6.489, -2.86, 7.768, 2.353, 12.944, 20.955, 5.151, -0.004];

/**
 * Bits a note; bits over the best other key; bits over the mean key; chord tones' share; that over the best other
 * key's; bits over the mean of the chart turned by whole bars; ln notes.
 */
export type FitFeatures = readonly [number, number, number, number, number, number, number];

/** At most this many turnings are tried. */
const MOST_TURNS = 16;

/** One note of the line as the chart is judged by it. */
export interface FitNote {
  readonly pitch: number;
  /** Index of the span that sounds at its onset. */
  readonly span: number;
  /** Indices of the spans that would sound there with the chart turned by some bars. */
  readonly turned: readonly number[];
  readonly left: (typeof LEAVINGS)[number];
}

/** What is known of a take beside its notes over chords. */
export interface AboutLaying {
  /** Nats a note by which the line fits the chart better than any other key, wherever in the form; asked of a line alone. */
  readonly margin: () => number;
  /** How sure its bars are on the whole, 0 to 1. */
  readonly sure: number;
}

/**
 * @param solo the notes of the line in time order
 * @param comping the notes of the other hand; none where the line stands alone
 * @param lastOfPhrase ids of the notes before a breath
 * @returns null where too few notes sound over chords to say anything
 */
export function weighChart(
  solo: readonly PlacedNote[],
  comping: readonly PlacedNote[],
  lastOfPhrase: ReadonlySet<string>,
  chart: Chart,
  spans: readonly ChordSpan[],
  { margin, sure }: AboutLaying,
): ChartFit | null {
  const { line, heard } = hearChart(solo, comping, lastOfPhrase, chart, spans);
  if (line === null && heard === null) return null;
  const odds = lineOdds(line);
  const score = rounded(
    heard === null
      ? byLine(lineFeatures(odds, margin()))
      : byComping(compingFeatures(heard.chordTones, odds)),
  );
  const verdict = verdictOf(score, heard === null, sure);
  if (verdict === "fits" || verdict === "cannot be told") return { verdict, score, better: [] };
  const better = heard === null ? [] : keyOfComping(heard.chordTones, chart);
  if (better.length > 0 || line === null) return { verdict, score, better };
  return { verdict, score, better: betterCharts(solo, lastOfPhrase, line, score, chart) };
}

function verdictOf(score: number, alone: boolean, sure: number): ChartVerdict {
  if (score < FIT_LIMITS.wrong) return "does not fit";
  if (alone) return lineVerdict(score, sure);
  return score >= FIT_LIMITS.fits ? "fits" : "doubtful";
}

/** What the line and the hand that comps say of a chart; null where one of them has too few notes over chords. */
export function hearChart(
  solo: readonly PlacedNote[],
  comping: readonly PlacedNote[],
  lastOfPhrase: ReadonlySet<string>,
  chart: Chart,
  spans: readonly ChordSpan[],
): { readonly line: KeysFit | null; readonly heard: KeysFit | null } {
  const kinds = kindsOf(spans);
  const line = keysFit(fitNotes(solo, lastOfPhrase, chart, spans), kinds);
  const heard =
    comping.length < FEWEST_NOTES ? null : keysFit(fitNotes(comping, new Set(), chart, spans), kinds);
  return { line, heard };
}

/** The notes of a line as a chart is judged by them, each under the span that sounds at its place. */
export function fitNotes(
  solo: readonly PlacedNote[],
  lastOfPhrase: ReadonlySet<string>,
  chart: Chart,
  spans: readonly ChordSpan[],
): FitNote[] {
  const bar = (chart.meter.beats * 4) / chart.meter.unit;
  const bars = chart.bars.length;
  const starts = spans.map(({ start }) => start);
  const spanAt = (position: number) => {
    const at = position - Math.floor(position / (bar * bars)) * bar * bars;
    return Math.max(0, bisectRight(starts, at) - 1);
  };
  const stride = Math.max(1, Math.ceil((bars - 1) / MOST_TURNS));
  const turns = Array.from({ length: Math.floor((bars - 1) / stride) }, (_, i) => (i + 1) * stride * bar);
  return solo.map((note, i) => {
    // In rubato only the bar is known.
    const position = note.position ?? (note.bar - 1) * bar;
    return {
      pitch: note.pitch,
      span: spanAt(position),
      turned: turns.map((turn) => spanAt(position + turn)),
      left: leaving(note, solo[i + 1], lastOfPhrase.has(note.id)),
    };
  });
}

function leaving(note: PlacedNote, next: PlacedNote | undefined, breath: boolean): (typeof LEAVINGS)[number] {
  if (next === undefined || breath) return "breath";
  const step = Math.abs(next.pitch - note.pitch);
  return step === 1 || step === 2 ? "step" : "leap";
}

/** For each span, by pitch class: its kind, and the bits that a note there gives by how it is left; null for N.C. */
export type SpanKinds = readonly (null | {
  readonly kind: Int8Array;
  readonly bits: Readonly<Record<FitNote["left"], Float64Array>>;
})[];

export function kindsOf(spans: readonly ChordSpan[]): SpanKinds {
  return spans.map((span) => {
    if (span.chord === null) return null;
    const { rootClass } = span.chord;
    const kind = Int8Array.from({ length: 12 }, (_, pitchClass) => {
      const role = harmonicRoleOf((pitchClass - rootClass + 12) % 12, span);
      return KINDS.indexOf(role === "blue" || role === "avoid" ? "colour" : role);
    });
    const bitsLeft = (left: FitNote["left"]) =>
      Float64Array.from(kind, (k) => {
        const size = kind.filter((other) => other === k).length;
        return Math.log2((12 * KIND_SHARES[left][k]!) / size);
      });
    return { kind, bits: { step: bitsLeft("step"), leap: bitsLeft("leap"), breath: bitsLeft("breath") } };
  });
}

/** Bits a note and share of chord tones, with the chart raised by 0 to 11 half steps. */
export interface KeysFit {
  readonly bits: readonly number[];
  /** Bits a note with the chart turned by whole bars, on average. */
  readonly turned: readonly number[];
  readonly chordTones: readonly number[];
  readonly notes: number;
}

/** @returns null where fewer than twenty notes sound over chords */
export function keysFit(notes: readonly FitNote[], kinds: SpanKinds): KeysFit | null {
  const counted = notes.filter((note) => kinds[note.span] != null);
  if (counted.length < FEWEST_NOTES) return null;
  const bits = new Float64Array(12);
  const turned = new Float64Array(12);
  const chordTones = new Float64Array(12);
  for (const note of counted) {
    const here = kinds[note.span]!;
    addBits(bits, note, here, 1);
    for (let above = 0; above < 12; above++) {
      if (here.kind[(note.pitch - above + 120) % 12]! < CHORD_TONES) chordTones[above]! += 1;
    }
    const turns = note.turned.length === 0 ? [note.span] : note.turned;
    for (const span of turns) addBits(turned, note, kinds[span] ?? null, 1 / turns.length);
  }
  const shared = (sums: Float64Array) => Array.from(sums, (sum) => sum / counted.length);
  return {
    bits: shared(bits),
    turned: shared(turned),
    chordTones: shared(chordTones),
    notes: counted.length,
  };
}

/** Adds what a note says of the chord of a span raised by 0 to 11 half steps; N.C. says nothing. */
function addBits(sums: Float64Array, note: FitNote, place: SpanKinds[number], weight: number): void {
  if (place === null) return;
  const said = place.bits[note.left];
  for (let above = 0; above < 12; above++) {
    sums[above]! += weight * said[(note.pitch - above + 120) % 12]!;
  }
}

/** What speaks for the chart raised by `above` half steps against itself in the other keys. */
export function featuresIn({ bits, turned, chordTones, notes }: KeysFit, above: number): FitFeatures {
  const others = <T>(list: readonly T[]) => list.filter((_, k) => k !== above);
  return [
    bits[above]!,
    bits[above]! - Math.max(...others(bits)),
    bits[above]! - mean(bits)!,
    chordTones[above]!,
    chordTones[above]! - Math.max(...others(chordTones)),
    bits[above]! - turned[above]!,
    Math.log(notes),
  ];
}

/** How likely a chart of these features is the right one, 0 to 1. */
export function chartLikelihood(features: FitFeatures): number {
  return logistic(logOddsOf(features));
}

/** Log odds of a chart by its line; 0 where the line has too few notes to say anything. */
export const lineOdds = (line: KeysFit | null): number =>
  line === null ? 0 : logOddsOf(featuresIn(line, 0));

function logOddsOf(features: FitFeatures): number {
  return features.reduce((sum, x, i) => sum + x * FIT_WEIGHTS[i + 1]!, FIT_WEIGHTS[0]!);
}

/** The chart in other keys, and the usual forms of its meter and length in all keys, that are likelier than it. */
function betterCharts(
  solo: readonly PlacedNote[],
  lastOfPhrase: ReadonlySet<string>,
  own: KeysFit,
  score: number,
  chart: Chart,
): ChartFit["better"] {
  const found = candidates(own, null, chart);
  for (const form of FORMS) {
    const asked = chart.key.mode === form.mode ? chart.key : keyOn(chart.key.tonicClass, form.mode);
    const { chart: other, spans } = knownForm(form.id, keyName(asked));
    if (other.bars.length !== chart.bars.length || !sameMeter(other, chart)) continue;
    const fit = keysFit(fitNotes(solo, lastOfPhrase, other, spans()), kindsOf(spans()));
    if (fit !== null) found.push(...candidates(fit, form.name, other));
  }
  return found
    .filter((candidate) => candidate.score > Math.max(score, FIT_LIMITS.fits))
    .sort((a, b) => b.bits - a.bits)
    .slice(0, MOST_BETTER)
    .map(({ chart: name, key, score: likely }) => ({ chart: name, key, score: likely }));
}

function candidates(fit: KeysFit, name: string | null, chart: Chart) {
  return fit.bits.map((bits, above) => ({
    chart: name,
    key: keyName(keyOn((chart.key.tonicClass + above) % 12, chart.key.mode)),
    score: rounded(chartLikelihood(featuresIn(fit, above))),
    bits,
  }));
}

function sameMeter(a: Chart, b: Chart): boolean {
  return a.meter.beats === b.meter.beats && a.meter.unit === b.meter.unit;
}

function rounded(value: number): number {
  return Math.round(value * 1000) / 1000;
}
