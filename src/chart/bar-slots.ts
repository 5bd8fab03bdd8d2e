/** What stands in one bar of a chart's text: chords, strokes on which they go on, signs that repeat. */
import { shareBeats, type WrittenChord } from "./bar-chords.ts";
import { chartProblem, type Place } from "./chart-place.ts";
import type { ChartChord, Meter } from "./types.ts";

export type Slot =
  | { readonly kind: "chord"; readonly written: WrittenChord }
  | { readonly kind: "hold"; readonly count: number }
  | { readonly kind: "again"; readonly bars: 1 | 2 };

export interface FilledBars {
  /** One bar, or the two that a sign for two bars repeats. */
  readonly bars: readonly (readonly ChartChord[])[];
  /** True when the chord before goes on and it is not plain which of several. */
  readonly asks: boolean;
}

/** The bars that the slots make, after the bars before them. */
export function fillBar(
  slots: readonly Slot[],
  before: readonly (readonly ChartChord[])[],
  meter: Meter,
  place: Place,
): FilledBars {
  const again = slots.find((slot) => slot.kind === "again");
  if (again !== undefined) return { bars: repeated(again.bars, slots.length, before, place), asks: false };
  if (!slots.some(({ kind }) => kind === "hold")) {
    const written = slots.flatMap((slot) => (slot.kind === "chord" ? [slot.written] : []));
    return { bars: [shareBeats(written, meter, place)], asks: false };
  }
  return heldBar(slots, before, meter, place);
}

/** One bar on the chord that sounded last. */
export function goOn(
  before: readonly (readonly ChartChord[])[],
  meter: Meter,
  place: Place,
): readonly ChartChord[] {
  const last = before.at(-1)?.at(-1);
  if (last === undefined) throw nothingBefore("A sign that goes on with a chord", place);
  return [{ ...last, beat: 1, beats: meter.beats }];
}

function repeated(
  count: 1 | 2,
  slots: number,
  before: readonly (readonly ChartChord[])[],
  place: Place,
): readonly (readonly ChartChord[])[] {
  if (slots > 1) {
    throw chartProblem(
      "nothing-to-repeat",
      '"%" stands beside a chord',
      place,
      "It repeats the whole bar before: let it stand alone.",
    );
  }
  if (before.length < count) throw nothingBefore('"%"', place);
  return before.slice(-count);
}

/** Chords and strokes share the bar by beats; a stroke adds its beat to the chord before it. */
function heldBar(
  slots: readonly Slot[],
  before: readonly (readonly ChartChord[])[],
  meter: Meter,
  place: Place,
): FilledBars {
  const strokes = slots.reduce((sum, slot) => sum + (slot.kind === "hold" ? slot.count : 0), 0);
  // "Dm7 // G7 //": with a stroke for each beat, a chord's name stands over its first.
  const over =
    strokes === meter.beats &&
    slots.every(({ kind }, at) => kind === "hold" || slots[at + 1]?.kind === "hold");
  const ownBeat = over ? 0 : 1;
  const counted = slots.reduce((sum, slot) => sum + (slot.kind === "hold" ? slot.count : ownBeat), 0);
  const all = slots.every(({ kind }) => kind === "hold");
  if (all && counted > 1 && counted !== meter.beats) {
    throw chartProblem(
      "beats-do-not-fit",
      `${counted} strokes stand alone in a bar of ${meter.beats} beats`,
      place,
      `Write a stroke for each of the ${meter.beats} beats, "%" where the bar before returns, or "%%" where the two before it do.`,
    );
  }
  const fits = meter.beats % counted === 0 || counted % meter.beats === 0;
  const beatsGiven = slots.some((slot) => slot.kind === "chord" && slot.written.beats !== null);
  if (!fits || beatsGiven) {
    throw chartProblem(
      "beats-do-not-fit",
      `${counted} chords and strokes do not share a bar of ${meter.beats} beats`,
      place,
      `Write a chord or a stroke for each of the ${meter.beats} beats, "F7 / / /"; a bass stands right behind its slash, "C/E".`,
    );
  }
  if (all) return { bars: [goOn(before, meter, place)], asks: (before.at(-1)?.length ?? 0) > 1 };
  const each = meter.beats / counted;
  const chords: { -readonly [Name in keyof ChartChord]: ChartChord[Name] }[] = [];
  let beat = 1;
  for (const slot of slots) {
    if (slot.kind === "hold" && chords.length === 0)
      chords.push({ ...goOn(before, meter, place)[0]!, beats: 0 });
    const beats = each * (slot.kind === "hold" ? slot.count : ownBeat);
    if (slot.kind === "hold") chords.at(-1)!.beats += beats;
    if (slot.kind === "chord") {
      const { chord, symbol, scale } = slot.written;
      chords.push({ chord, symbol, scale, beat, beats });
    }
    beat += beats;
  }
  return { bars: [chords], asks: false };
}

function nothingBefore(what: string, place: Place) {
  return chartProblem(
    "nothing-to-repeat",
    `${what} stands in the first bar`,
    place,
    "Write the first bar's chords.",
  );
}
