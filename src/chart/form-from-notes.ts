/** The trade's forms read from what is heard. */
import { fitOf, type Profile, profileOf } from "./chord-fit.ts";
import { type Heard, meanHeard } from "./comping.ts";
import type { Form } from "./forms.ts";
import { formModels } from "./recognise-form.ts";
import type { Chart, Chord } from "./types.ts";

/** What is heard, stretch after stretch, `parts` of them to a bar. */
export interface HeardBars {
  readonly heard: readonly Heard[];
  readonly parts: number;
}

/** A form in C, raised by semitones, and how well it fits on average. */
export interface FormReading {
  readonly form: Form;
  readonly model: Chart;
  readonly above: number;
  readonly fit: number;
}

/** A form may be cut off when this share of it is played. */
const ENOUGH_OF_A_FORM = 2 / 3;

/** Every form in every key, the best fit first. Vamps are left to free reading: any stretch of a form is one. */
export function readForms(bars: HeardBars): FormReading[] {
  const played = bars.heard.length / bars.parts;
  return formModels()
    .filter(({ form }) => !form.id.startsWith("vamp") && form.bars * ENOUGH_OF_A_FORM <= played)
    .flatMap(({ form, model }) => {
      const heard = foldedTo(form.bars, bars);
      const profiles = heard.map((_, index) => {
        const chord = chordAt(model, index, bars.parts);
        return chord === null ? null : profileOf(chord);
      });
      return Array.from({ length: 12 }, (_, above) => ({
        form,
        model,
        above,
        fit: meanFit(heard, profiles, above),
      }));
    })
    .sort((a, b) => b.fit - a.fit);
}

/** What is heard at each stretch of a chorus of `length` bars, all choruses together. */
export function foldedTo(length: number, { heard, parts }: HeardBars): Heard[] {
  const period = length * parts;
  return Array.from({ length: period }, (_, index) => {
    const all: Heard[] = [];
    for (let i = index; i < heard.length; i += period) all.push(heard[i]!);
    return meanHeard(all);
  });
}

/** The chord of a chart at a stretch, counted through its bars. */
export function chordAt(chart: Chart, stretch: number, parts: number): Chord | null {
  const beat = 1 + (chart.meter.beats * (stretch % parts)) / parts;
  return chart.bars[Math.floor(stretch / parts)]!.chords.findLast((chord) => chord.beat <= beat)!.chord;
}

function meanFit(heard: readonly Heard[], profiles: readonly (Profile | null)[], above: number): number {
  let sum = 0;
  let count = 0;
  for (const [index, one] of heard.entries()) {
    const profile = profiles[index]!;
    if (profile === null || one.weight === 0) continue;
    sum += fitOf(one, profile, above);
    count += 1;
  }
  return count === 0 ? 0 : sum / count;
}
