/**
 * A chart from what the comping hand plays, for the user to confirm.
 *
 * The bars are laid out by the notation, by bar lines that the caller knows, or by the meter map and a tempo. In each
 * half bar the pitch classes are weighed by how long they sound, with the bass apart. Two readings are made: the
 * trade's forms in every key, and free chords (the best path through chord templates, with the usual root motions
 * favoured; Viterbi 1967, as in Sheh & Ellis 2003 [memory]). What returns chorus after chorus is heard together.
 */
import type { Note, Take } from "../take/index.ts";
import { fitOf } from "./chord-fit.ts";
import { withRoot } from "./chord-symbol.ts";
import { type Heard, hearStretches, meanHeard } from "./comping.ts";
import { rankKeys } from "./find-key.ts";
import { FORMS } from "./forms.ts";
import { bestFit, bestPath, TEMPLATES } from "./free-reading.ts";
import { keyName } from "./key.ts";
import { rootNameInKey } from "./pitch-name.ts";
import { type FormMatch, modelsOf, recogniseForm } from "./recognise-form.ts";
import { barsOf, mainMeter, secondsOfTick } from "./take-bars.ts";
import { transposeChart } from "./transpose.ts";
import type { Chart, ChartBar, Chord, Key, Meter } from "./types.ts";

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

/** Longer takes are judged by their start. */
const MAX_BARS = 400;
const MOST_CANDIDATES = 5;

/** How steeply a better fit makes a chord likelier; set so that confidences are met by outcomes in the tests. */
const STEEPNESS = 6;

/** Charts that the comping may follow, or null when there is no bar line or no comping to go by. */
export function proposeChart(
  take: Take,
  comping: readonly Note[],
  options: ProposeOptions = {},
): ChartProposal | null {
  const meter = mainMeter(take);
  const lines = soundingLines(options.barLines ?? barLinesOf(take, meter, options.tempo ?? null), comping);
  if (lines.length < 2) return null;
  const parts = meter.beats % 2 === 0 && meter.beats > 2 ? 2 : 1;
  const heard = hearStretches(comping, divided(lines, parts));
  const place: Layout = { heard, parts, bars: lines.length - 1, meter, name: take.title };
  const candidates = [...formCandidates(place), ...freeCandidates(place)]
    .sort((a, b) => b.confidence - a.confidence)
    .slice(0, MOST_CANDIDATES);
  const best = candidates[0];
  return best === undefined ? null : { ...best, candidates };
}

interface Layout {
  /** Stretch after stretch, `parts` to a bar. */
  readonly heard: readonly Heard[];
  readonly parts: number;
  readonly bars: number;
  readonly meter: Meter;
  readonly name: string | null;
}

function barLinesOf(take: Take, meter: Meter, tempo: number | null): number[] {
  if (take.bars.length > 0 || tempo === null || take.tempoStated) {
    const bars = barsOf(take);
    const last = bars.at(-1);
    if (last === undefined) return [];
    return [...bars.map((bar) => bar.tick), last.tick + last.ticks].map((tick) => secondsOfTick(take, tick));
  }
  const seconds = (60 / tempo) * ((meter.beats * 4) / meter.unit);
  const start = take.notes[0]?.onset ?? 0;
  const end = take.notes.reduce((latest, note) => Math.max(latest, note.onset + note.duration), 0);
  const bars = Math.min(Math.ceil((end - start) / seconds), MAX_BARS);
  return Array.from({ length: bars + 1 }, (_, bar) => start + bar * seconds);
}

/** From the bar in which comping starts to the one in which it ends. */
function soundingLines(lines: readonly number[], comping: readonly Note[]): number[] {
  if (comping.length === 0) return [];
  const first = comping.reduce((early, note) => Math.min(early, note.onset), Number.POSITIVE_INFINITY);
  const end = comping.reduce((late, note) => Math.max(late, note.onset), 0);
  const tolerance = lines.length > 1 ? (lines[1]! - lines[0]!) / 8 : 0;
  const from = lines.findLastIndex((line) => line <= first + tolerance);
  const to = lines.findIndex((line) => line > end + tolerance);
  return lines.slice(Math.max(from, 0), to < 0 ? lines.length : to + 1).slice(0, MAX_BARS + 1);
}

function divided(lines: readonly number[], parts: number): number[] {
  const boundaries: number[] = [];
  for (let i = 0; i + 1 < lines.length; i++) {
    for (let part = 0; part < parts; part++) {
      boundaries.push(lines[i]! + ((lines[i + 1]! - lines[i]!) * part) / parts);
    }
  }
  boundaries.push(lines.at(-1)!);
  return boundaries;
}

/** The chord of a chart at a stretch of one of its bars. */
function chordAt(chart: Chart, bar: number, part: number, parts: number): Chord | null {
  const beat = 1 + (chart.meter.beats * part) / parts;
  return chart.bars[bar]!.chords.findLast((chord) => chord.beat <= beat)!.chord;
}

/** What is heard at each stretch of a chorus of `length` bars, all choruses together. */
function folded(place: Layout, length: number): Heard[] {
  const period = length * place.parts;
  return Array.from({ length: period }, (_, index) => {
    const all: Heard[] = [];
    for (let i = index; i < place.heard.length; i += period) all.push(place.heard[i]!);
    return meanHeard(all);
  });
}

function formCandidates(place: Layout): ChartCandidate[] {
  const free = mean(place.heard.filter((heard) => heard.weight > 0).map((heard) => bestFit(heard).fit));
  const found: { fit: number; chart: Chart; formId: string; name: string; bars: number }[] = [];
  for (const form of FORMS) {
    if (form.bars > place.bars * 1.5 || form.id.startsWith("vamp")) continue;
    for (const model of modelsOf(form)) {
      const heard = folded(place, form.bars);
      for (let above = 0; above < 12; above++) {
        const key: Key = { ...model.key, tonic: KEY_NAMES[above]!, tonicClass: above };
        const fits = heard.flatMap((one, index) => {
          const chord = chordAt(model, Math.floor(index / place.parts), index % place.parts, place.parts);
          return one.weight === 0 || chord === null ? [] : [fitOf(one, chord, above)];
        });
        found.push({
          fit: mean(fits),
          chart: transposeChart(model, key),
          formId: form.id,
          name: form.name,
          bars: form.bars,
        });
      }
    }
  }
  found.sort((a, b) => b.fit - a.fit);
  const total = found.reduce((sum, { fit }) => sum + Math.exp((fit - found[0]!.fit) * STEEPNESS * 8), 0);
  return found.slice(0, MOST_CANDIDATES).map(({ fit, chart, formId, name }) => {
    const among = Math.exp((fit - found[0]!.fit) * STEEPNESS * 8) / total;
    const worth = free <= 0 ? 0 : Math.min(1, Math.max(0, fit / free));
    const confidence = among * worth;
    const description = `${name} in ${keyName(chart.key)}`;
    const form: FormMatch = {
      form: formId,
      name,
      key: chart.key,
      idiom: chart.idiom,
      likeness: 1,
      description,
    };
    const whole = {
      ...chart,
      meter: place.meter,
      bars: chart.bars.map((bar) => scaledBar(bar, chart.meter, place.meter)),
    };
    return { chart: whole, confidence, bars: barConfidences(whole, place, confidence), form, description };
  });
}

/** A form's bar in another meter. */
function scaledBar(bar: ChartBar, from: Meter, to: Meter): ChartBar {
  if (from.beats === to.beats) return bar;
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

function barConfidences(chart: Chart, place: Layout, prior: number): ChartCandidate["bars"] {
  const heard = folded(place, chart.bars.length);
  const odds = Math.log(Math.max(prior, 1e-3) / Math.max(1 - prior, 1e-3));
  return chart.bars.map((bar, index) => {
    const shares = Array.from({ length: place.parts }, (_, part) => {
      const one = heard[index * place.parts + part]!;
      const chord = chordAt(chart, index, part, place.parts);
      if (one.weight === 0 || chord === null) return prior;
      const other = bestFit(one, chord.rootClass).fit;
      return 1 / (1 + Math.exp(-(STEEPNESS * (fitOf(one, chord) - other) + odds)));
    });
    return { bar: bar.number, confidence: mean(shares) };
  });
}

function freeCandidates(place: Layout): ChartCandidate[] {
  const length = returningLength(place);
  const heard = folded(place, length);
  const path = bestPath(heard, place.parts);
  const chords = path.map((index) => TEMPLATES[index]!);
  const sketch = barsOfPath(chords, place, length);
  const ranked = rankKeys(sketch, { key: null, idiom: null })[0]!;
  const known = recogniseForm({ name: null, meter: place.meter, bars: sketch, ...ranked });
  const found = known === null ? ranked : { key: known.key, idiom: known.idiom };
  const tonic = KEY_NAMES[found.key.tonicClass]!;
  const key: Key = { ...found.key, tonic };
  const spelled = chords.map((chord) => {
    const root = rootNameInKey(chord.rootClass, tonic);
    return withRoot(chord, root, root);
  });
  const chart: Chart = {
    name: place.name,
    key,
    idiom: found.idiom,
    meter: place.meter,
    bars: barsOfPath(spelled, place, length),
  };
  const form = known === null ? null : { ...known, key, description: `${known.name} in ${keyName(key)}` };
  const bars = barConfidences(chart, place, 0.5);
  const description = form?.description ?? `${length} bars in ${keyName(key)}`;
  return [{ chart, confidence: mean(bars.map(({ confidence }) => confidence)), bars, form, description }];
}

/** Tonics as they are usually signed. */
const KEY_NAMES = ["C", "Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"] as const;

const USUAL_LENGTHS = [4, 8, 12, 16, 20, 24, 32, 36, 40, 48, 64] as const;

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
  return found ?? Math.min(place.bars, 64);
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
  return aa === 0 || bb === 0 ? 0 : dot / Math.sqrt(aa * bb);
}

function mean(values: readonly number[]): number {
  return values.length === 0 ? 0 : values.reduce((sum, value) => sum + value, 0) / values.length;
}
