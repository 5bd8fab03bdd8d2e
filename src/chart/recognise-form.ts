/** Which of the trade's forms a chart is. */
import { mod12 } from "../pitch/index.ts";
import { FORMS, type Form, formChart } from "./forms.ts";
import { isDominant, isMinor } from "./functions.ts";
import { keyName, keyOn } from "./key.ts";
import type { Chart, ChartChord, Chord, Idiom, Key } from "./types.ts";

export interface FormMatch {
  /** Id of the form. */
  readonly form: string;
  /** "12-bar blues". */
  readonly name: string;
  readonly key: Key;
  readonly idiom: Idiom;
  /** 0 to 1: share of the form's time in which the chart has its chord. */
  readonly likeness: number;
  /** "12-bar blues in F". */
  readonly description: string;
}

/** A chart that shares less than this with a form is another form. [practice] */
const LEAST_LIKENESS = 0.7;

/**
 * The form that a chart follows, in any key, or null. Chords are alike when they share root and family (dominant,
 * minor, major), so that ninths for sevenths change nothing; a chart of several choruses written out is recognised
 * too.
 */
export function recogniseForm(chart: Chart): FormMatch | null {
  let best: FormMatch | null = null;
  for (const { form, model } of formModels()) {
    if (chart.bars.length % shortestRound(model) !== 0) continue;
    for (let above = 0; above < 12; above++) {
      const likeness = likenessOf(chart, model, above);
      if (likeness < LEAST_LIKENESS || likeness <= (best?.likeness ?? 0)) continue;
      best = formMatch(form, keyAt(chart, model, above), model.idiom, likeness);
    }
  }
  return best;
}

export function formMatch(form: Form, key: Key, idiom: Idiom, likeness: number): FormMatch {
  return {
    form: form.id,
    name: form.name,
    key,
    idiom,
    likeness,
    description: `${form.name} in ${keyName(key)}`,
  };
}

/** Bars after which a form comes round: a vamp is the same vamp at any length. */
function shortestRound(model: Chart): number {
  const bars = model.bars.map((bar) => bar.chords.map(({ symbol }) => symbol).join(" "));
  const lengths = bars.map((_, index) => index + 1).filter((length) => bars.length % length === 0);
  return lengths.find((length) => bars.every((bar, index) => bar === bars[index % length]))!;
}

/** Every form in C, in each mode that it has. */
export function formModels(): readonly FormModel[] {
  models ??= FORMS.flatMap((form) => [
    ...(form.major === null ? [] : [{ form, model: formChart(form.id, "C") }]),
    ...(form.minor === null ? [] : [{ form, model: formChart(form.id, "Cm") }]),
  ]);
  return models;
}

interface FormModel {
  readonly form: Form;
  readonly model: Chart;
}

/** Read when they are first asked for: who only draws a take never asks. */
let models: readonly FormModel[] | null = null;

/** Family of chords that stand for each other in a form. */
function familyOf(chord: Chord): "dominant" | "minor" | "half-diminished" | "diminished" | "major" {
  if (isDominant(chord)) return "dominant";
  if (isMinor(chord)) return "minor";
  if (chord.quality === "half-diminished") return "half-diminished";
  return chord.quality === "diminished" || chord.quality === "diminished-seventh" ? "diminished" : "major";
}

function likenessOf(chart: Chart, model: Chart, above: number): number {
  let alike = 0;
  for (const [index, bar] of chart.bars.entries()) {
    const wanted = model.bars[index % model.bars.length]!.chords;
    alike += sharedBeats(bar.chords, chart.meter.beats, wanted, model.meter.beats, above);
  }
  return alike / chart.bars.length;
}

/** Share of a bar in which two rows of chords agree, `model` raised by `above` semitones; a form is never silent. */
function sharedBeats(
  chords: readonly ChartChord[],
  beats: number,
  model: readonly ChartChord[],
  modelBeats: number,
  above: number,
): number {
  let shared = 0;
  for (const one of chords) {
    for (const other of model) {
      const start = Math.max((one.beat - 1) / beats, (other.beat - 1) / modelBeats);
      const end = Math.min((one.beat - 1 + one.beats) / beats, (other.beat - 1 + other.beats) / modelBeats);
      if (end > start && alikeChords(one.chord, other.chord!, above)) shared += end - start;
    }
  }
  return shared;
}

function alikeChords(chord: Chord | null, model: Chord, above: number): boolean {
  if (chord === null) return false;
  return chord.rootClass === mod12(model.rootClass + above) && familyOf(chord) === familyOf(model);
}

function keyAt(chart: Chart, model: Chart, above: number): Key {
  if (chart.key.tonicClass === above && chart.key.mode === model.key.mode) return chart.key;
  const onTonic = chart.bars
    .flatMap((bar) => bar.chords.map(({ chord }) => chord))
    .find((chord) => chord?.rootClass === above);
  if (!onTonic) return keyOn(above, model.key.mode);
  return { tonic: onTonic.root, tonicClass: above, mode: model.key.mode };
}
