/**
 * A chart from what the comping hand plays, for the user to confirm.
 *
 * The bars are laid out by the notation, by bar lines that the caller knows, or by the meter map and a tempo. In each
 * half bar the pitch classes are weighed by how long they sound, with the bass apart. Two readings are made: the
 * trade's forms in every key, and free chords (the best path through chord templates, with the usual root motions
 * favoured; Viterbi 1967, as in Sheh & Ellis 2003 [memory]). What returns chorus after chorus is heard together.
 */
import { rootNameInKey, tonicOf } from "../pitch/index.ts";
import { logistic } from "../statistics/logistic.ts";
import type { Note, Take } from "../take/index.ts";
import { counted } from "../words/index.ts";
import { divided, linesAtTempo, linesStated, soundingLines } from "./bar-lines.ts";
import { barLinesByForm } from "./bars-by-form.ts";
import { fitOf, profileOf } from "./chord-fit.ts";
import { withRoot } from "./chord-symbol.ts";
import { bestFit, bestPath } from "./chords-from-notes.ts";
import { hearStretches } from "./comping.ts";
import { chordAt, foldedTo, type HeardBars, readForms } from "./form-from-notes.ts";
import { keyName, keyOn } from "./key.ts";
import { type FormMatch, formMatch, recogniseForm } from "./recognise-form.ts";
import { mainMeter } from "./take-bars.ts";
import { settingInTake, spelledInTake } from "./take-key.ts";
import { transposeChart } from "./transpose.ts";
import type { Chart, ChartBar, Chord, Meter } from "./types.ts";

/** One chart that the comping may follow. */
export interface ChartCandidate {
  readonly chart: Chart;
  /** 0 to 1. */
  readonly confidence: number;
  /** One for each bar of the chart, 0 to 1. */
  readonly bars: readonly { readonly bar: number; readonly confidence: number }[];
  /** The form that it is, or null. */
  readonly form: FormMatch | null;
  /** "12-bar blues in F", "16 bars in Ebm". */
  readonly description: string;
}

/** The best candidate, and all of them, the best first. */
export interface ChartProposal extends ChartCandidate {
  readonly candidates: readonly ChartCandidate[];
}

export interface ProposeOptions {
  /** Quarter notes a minute, for a take whose source states no tempo. */
  readonly tempo?: number | null;
  /** Seconds of the bar lines, where the caller knows them; the last one ends the last bar. */
  readonly barLines?: readonly number[];
}

const MOST_CANDIDATES = 5;

/** How steeply a better fit makes a chord likelier; set so that confidences are met by outcomes in the tests. */
const STEEPNESS = 6;

/** The same for a whole form against another. */
const FORM_STEEPNESS = 48;

/** Log odds that a bar of a form is as the form has it, before it is heard: nineteen in twenty. [practice] */
const KEPT_TO = 3;

/**
 * Where the bar lines themselves had to be found, a proposal is worth this share, and free chords only as much as the
 * form by which the bars were found. [practice]
 */
const WITHOUT_BARS = 0.8;

/** What seems to return is heard as one long chorus when the bars make that much better sense so. [practice] */
const ONE_CHORUS = 0.9;

/** What is heard in fewer bars is the less sure. [practice] */
const ENOUGH_BARS = 4;

/**
 * A form that fits this share as well as free chords do is as likely as not. Forms that are played fit about 0.7
 * where voicings leave out the root, 0.6 under a walking bass, and 1 otherwise; others fit 0.5 (by the takes of the tests).
 */
const HALF_A_FORM = 0.57;
const FORM_SPREAD = 0.04;

/** Charts that the comping may follow, or null when there is no bar line or no comping to go by. */
export function proposeChart(
  take: Take,
  comping: readonly Note[],
  options: ProposeOptions = {},
): ChartProposal | null {
  const meter = mainMeter(take);
  const unstated = take.bars.length === 0 && !take.tempoStated;
  const tempo = options.tempo ?? null;
  const barsByForm = unstated && tempo === null && options.barLines === undefined;
  const all = barsByForm
    ? (barLinesByForm(comping) ?? [])
    : (options.barLines ?? (unstated ? linesAtTempo(take, meter, tempo!) : linesStated(take)));
  const lines = soundingLines(all, comping);
  if (lines.length < 2) return null;
  const parts = meter.beats % 2 === 0 && meter.beats > 2 ? 2 : 1;
  const heard = hearStretches(comping, divided(lines, parts));
  const place: Layout = { heard, parts, bars: lines.length - 1, meter, take, tonics: tonicsAt(lines, take) };
  const forms = formCandidates(place);
  const enough = Math.min(1, place.bars / ENOUGH_BARS);
  const sure = enough * (barsByForm ? WITHOUT_BARS : 1);
  const free = sure * (barsByForm ? forms[0]!.confidence : 1);
  const returning = returningLength(place);
  const candidates = [
    ...forms.map(worth(sure)),
    worth(free)(freeCandidate(place, returning)),
    ...(isOneChorus(place.bars, returning)
      ? [worth(free * ONE_CHORUS)(freeCandidate(place, place.bars))]
      : []),
  ]
    .sort((a, b) => b.confidence - a.confidence)
    .slice(0, MOST_CANDIDATES);
  return { ...candidates[0]!, candidates };
}

function worth(share: number): (candidate: ChartCandidate) => ChartCandidate {
  return (candidate) => ({ ...candidate, confidence: candidate.confidence * share });
}

interface Layout extends HeardBars {
  readonly bars: number;
  readonly meter: Meter;
  readonly take: Take;
  /** Tonic of the key that the source signs at each bar line, where it changes key on its way; else empty. */
  readonly tonics: readonly string[];
}

function formCandidates(place: Layout): ChartCandidate[] {
  const free = mean(place.heard.filter((heard) => heard.weight > 0).map((heard) => bestFit(heard)));
  const found = readForms(place);
  const odds = found.map(({ fit }) => Math.exp(fit * FORM_STEEPNESS));
  const total = odds.reduce((sum, one) => sum + one, 0);
  return found.slice(0, MOST_CANDIDATES).map(({ form, model, above, fit }, index) => {
    const likely = free <= 0 ? 0 : logistic((fit / free - HALF_A_FORM) / FORM_SPREAD);
    const confidence = (odds[index]! / total) * likely;
    const moved = transposeChart(model, spelledInTake(keyOn(above, model.key.mode), place.take));
    const bars = moved.bars.map((bar) => scaledBar(bar, moved.meter, place.meter));
    const chart = { ...moved, meter: place.meter, bars };
    const match = formMatch(form, chart.key, chart.idiom, 1);
    return {
      chart,
      confidence,
      bars: barConfidences(chart, place, confidence),
      form: match,
      description: match.description,
    };
  });
}

/** A form's bar in another meter. */
function scaledBar(bar: ChartBar, from: Meter, to: Meter): ChartBar {
  const by = to.beats / from.beats;
  return {
    ...bar,
    chords: bar.chords.map((chord) => ({
      ...chord,
      beat: 1 + (chord.beat - 1) * by,
      beats: chord.beats * by,
    })),
  };
}

/**
 * How sure each bar of a chart is. Where a form is followed, its bars are as they stand for the most part: a bar is
 * heard with that in mind by as much as the form is believed, and by itself for the rest.
 *
 * @param form how sure the form is, 0 to 1; 0 for free chords
 */
function barConfidences(chart: Chart, place: Layout, form: number): ChartCandidate["bars"] {
  const heard = foldedTo(chart.bars.length, place);
  return chart.bars.map((bar, index) => {
    const shares = Array.from({ length: place.parts }, (_, part) => {
      const one = heard[index * place.parts + part]!;
      const chord = chordAt(chart, index * place.parts + part, place.parts);
      if (one.weight === 0 || chord === null) return form > 0 ? form : 0.5;
      const better = STEEPNESS * (fitOf(one, profileOf(chord)) - bestFit(one, chord.rootClass));
      return form * logistic(better + KEPT_TO) + (1 - form) * logistic(better);
    });
    return { bar: bar.number, confidence: mean(shares) };
  });
}

function freeCandidate(place: Layout, length: number): ChartCandidate {
  const heard = foldedTo(length, place);
  const chords = bestPath(heard, place.parts);
  const sketch = barsOfPath(chords, place, length);
  const setting = settingInTake(sketch, place.take);
  const known = recogniseForm({ name: null, meter: place.meter, bars: sketch, ...setting });
  const found = known ?? setting;
  const key = spelledInTake(found.key, place.take);
  const spelled = chords.map((chord, index) => {
    const tonic = tonicIn(place, Math.floor(index / place.parts), length) ?? key.tonic;
    const root = rootNameInKey(chord.rootClass, tonic);
    return withRoot(chord, root, root);
  });
  const chart: Chart = {
    name: place.take.title,
    key,
    idiom: found.idiom,
    meter: place.meter,
    bars: barsOfPath(spelled, place, length),
  };
  const form = known === null ? null : { ...known, key, description: `${known.name} in ${keyName(key)}` };
  const bars = barConfidences(chart, place, 0);
  const description = form?.description ?? `${counted(length, "bar")} in ${keyName(key)}`;
  return { chart, confidence: mean(bars.map(({ confidence }) => confidence)), bars, form, description };
}

/** One signature throughout tells nothing that the chords do not know better: files without a key state C major. */
function tonicsAt(lines: readonly number[], take: Take): string[] {
  if (new Set(take.keys.map(({ fifths }) => fifths)).size < 2) return [];
  return lines.slice(0, -1).map((line) => {
    const first = take.notes.find(({ onset }) => onset >= line - NEAR_LINE) ?? take.notes.at(-1)!;
    const mark = take.keys.findLast(({ tick }) => tick <= first.tick) ?? take.keys[0]!;
    return tonicOf(mark.fifths, mark.mode);
  });
}

/** A note so many seconds before a bar line still belongs to its bar. */
const NEAR_LINE = 0.05;

/** The tonic that a bar of the chorus has most often, chorus after chorus; null where the source states but one key. */
function tonicIn({ tonics }: Layout, bar: number, length: number): string | null {
  const counts = new Map<string, number>();
  for (let at = bar; at < tonics.length; at += length)
    counts.set(tonics[at]!, (counts.get(tonics[at]!) ?? 0) + 1);
  return [...counts].sort(([, a], [, b]) => b - a)[0]?.[0] ?? null;
}

const USUAL_LENGTHS: readonly number[] = [4, 8, 12, 16, 20, 24, 32, 36, 40, 48, 64];

/** Whether all that is played may be a single chorus, though a part of it seems to return. */
function isOneChorus(bars: number, returning: number): boolean {
  return bars > returning && USUAL_LENGTHS.includes(bars);
}

/** Two lengths of chorus whose likeness differs by less are equally good; the shorter is taken. */
const CLOSE_LIKENESS = 0.03;

/** The usual length of chorus after which the comping is most like itself; all bars when none is heard twice. */
function returningLength(place: Layout): number {
  const lengths = USUAL_LENGTHS.filter((length) => length * 2 <= place.bars);
  const likeness = lengths.map((length) => {
    const lag = length * place.parts;
    const pairs = place.heard
      .slice(lag)
      .map((heard, index) => cosine(heard.classes, place.heard[index]!.classes));
    return mean(pairs);
  });
  const best = Math.max(...likeness);
  const found = lengths.find((_, index) => likeness[index]! >= best - CLOSE_LIKENESS);
  return found ?? place.bars;
}

function barsOfPath(chords: readonly Chord[], place: Layout, length: number): ChartBar[] {
  const { parts, meter } = place;
  return Array.from({ length }, (_, bar) => {
    const here = chords.slice(bar * parts, (bar + 1) * parts);
    const changes = here
      .map((chord, part) => ({ chord, beat: 1 + (meter.beats * part) / parts }))
      .filter(({ chord }, part) => part === 0 || chord.symbol !== here[part - 1]!.symbol);
    return {
      number: bar + 1,
      key: null,
      chords: changes.map(({ chord, beat }, index) => ({
        chord,
        symbol: chord.symbol,
        beat,
        beats: (changes[index + 1]?.beat ?? meter.beats + 1) - beat,
        scale: null,
      })),
    };
  });
}

function cosine(a: readonly number[], b: readonly number[]): number {
  let [dot, aa, bb] = [0, 0, 0];
  for (let i = 0; i < a.length; i++) {
    dot += a[i]! * b[i]!;
    aa += a[i]! ** 2;
    bb += b[i]! ** 2;
  }
  return dot === 0 ? 0 : dot / Math.sqrt(aa * bb);
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
