/**
 * Bar lines for a take that has none: played without a click, or in free time.
 *
 * Every form, in every key and for every number of choruses that gives bars of a bearable length, is laid over the
 * comping: the chords follow each other in order, near to where they would be in even time, and the best way through
 * is found by dynamic programming (Sakoe & Chiba 1978 [memory]). The best of all gives the bar lines.
 */
import type { Note } from "../take/index.ts";
import { fitOf, type Profile, profileOf } from "./chord-fit.ts";
import { symbolSuffix } from "./chord-symbol.ts";
import { type Heard, hearStretches } from "./comping.ts";
import { chordAt } from "./form-from-notes.ts";
import type { Form } from "./forms.ts";
import { formModels } from "./recognise-form.ts";
import type { Chart } from "./types.ts";

/** Seconds. */
const FRAME = 0.2;
const SHORTEST_BAR = 0.8;
const LONGEST_BAR = 6;

/** Longer takes are judged by their start. */
const MAX_FRAMES = 2000;
const MAX_CHORUSES = 12;

/** Only this many, the best in even time, are laid closely. */
const LAID_CLOSELY = 60;

/** Half bars: fine enough for the chords of the forms. */
const PARTS = 2;

/** Share of the take, and bars, by which the playing may run ahead of even time or fall behind. */
const SLACK_SHARE = 0.08;
const LEAST_SLACK_BARS = 2;

/** What it costs to be a bar away from even time, on the scale of `fitOf`; it grows with the square. */
const UNEVEN = 0.02;

/**
 * Seconds of the bar lines, the end of the last bar included, or null when there is too little comping for any form.
 */
export function barLinesByForm(comping: readonly Note[]): number[] | null {
  const start = comping.reduce((early, note) => Math.min(early, note.onset), Number.POSITIVE_INFINITY);
  const end = comping.reduce((late, note) => Math.max(late, note.onset + note.duration), 0);
  const frames = Math.min(MAX_FRAMES, Math.floor((end - start) / FRAME));
  const boundaries = Array.from({ length: frames + 1 }, (_, frame) => start + frame * FRAME);
  const fits = new FrameFits(hearStretches(comping, boundaries));
  const layings = layingsOf(frames).map((laying) => {
    const row = fits.rowOf(laying.model, laying.above);
    return { ...laying, row, even: evenScore(row, frames, laying.bars * PARTS) };
  });
  let best: (Way & { readonly row: readonly Float64Array[]; readonly bars: number }) | null = null;
  for (const { row, bars } of layings.sort((a, b) => b.even - a.even).slice(0, LAID_CLOSELY)) {
    const found = wayThrough(row, frames, bars * PARTS, best?.score ?? Number.NEGATIVE_INFINITY);
    if (found !== null) best = { ...found, row, bars };
  }
  return best === null ? null : linesOf(best.row, best.path, best.bars, boundaries);
}

/** A form in a key, over all the take a number of times. */
interface Laying {
  readonly model: Chart;
  readonly above: number;
  readonly bars: number;
}

/** All that give bars of a bearable length. */
function layingsOf(frames: number): Laying[] {
  const choruses = Array.from({ length: MAX_CHORUSES }, (_, index) => index + 1);
  const keys = Array.from({ length: 12 }, (_, above) => above);
  return formModels()
    .filter(({ form }) => isLongEnough(form))
    .flatMap(({ model }) =>
      choruses
        .map((count) => count * model.bars.length)
        .filter((bars) => {
          const seconds = (frames * FRAME) / bars;
          return seconds >= SHORTEST_BAR && seconds <= LONGEST_BAR;
        })
        .flatMap((bars) => keys.map((above) => ({ model, above, bars }))),
    );
}

/** The mean fit when every bar is as long as every other. */
function evenScore(row: readonly Float64Array[], frames: number, length: number): number {
  let sum = 0;
  for (let frame = 0; frame < frames; frame++) {
    sum += row[Math.floor(((frame + 0.5) * length) / frames) % row.length]![frame]!;
  }
  return sum / frames;
}

/** Shorter forms can be laid over anything when time is free. */
function isLongEnough(form: Form): boolean {
  return form.bars >= 8 && !form.id.startsWith("vamp");
}

/** The fit of every frame to every chord, worked out once for each. */
class FrameFits {
  private readonly known = new Map<string, Float64Array>();
  private readonly heard: readonly Heard[];

  constructor(heard: readonly Heard[]) {
    this.heard = heard;
  }

  /** For each half bar of a form raised by semitones, the fit of every frame to its chord. */
  rowOf(model: Chart, above: number): readonly Float64Array[] {
    return Array.from({ length: model.bars.length * PARTS }, (_, stretch) => {
      const chord = chordAt(model, stretch, PARTS)!;
      const rootClass = (chord.rootClass + above) % 12;
      const name = `${rootClass} ${symbolSuffix(chord)}`;
      const known = this.known.get(name);
      if (known !== undefined) return known;
      const profile: Profile = { ...profileOf(chord), rootClass };
      const fits = Float64Array.from(this.heard, (one) => fitOf(one, profile));
      this.known.set(name, fits);
      return fits;
    });
  }
}

interface Way {
  readonly score: number;
  /** The half bar of each frame. */
  readonly path: readonly number[];
}

/**
 * The best way through `length` half bars in `frames` frames, with its mean score; null when it is no better than `atLeast`.
 */
function wayThrough(
  row: readonly Float64Array[],
  frames: number,
  length: number,
  atLeast: number,
): Way | null {
  const slack = Math.max(LEAST_SLACK_BARS * PARTS, Math.ceil(SLACK_SHARE * length));
  const width = 2 * slack + 1;
  const rate = length / frames;
  const lowest = (frame: number) => Math.floor(frame * rate) - slack;
  let scores = new Float64Array(width).fill(Number.NEGATIVE_INFINITY);
  const advanced = new Uint8Array(frames * width);
  for (let frame = 0; frame < frames; frame++) {
    const low = lowest(frame);
    const shift = frame === 0 ? 0 : low - lowest(frame - 1);
    const next = new Float64Array(width).fill(Number.NEGATIVE_INFINITY);
    for (let place = 0; place < width; place++) {
      const half = low + place;
      if (half < 0 || half >= length) continue;
      const stay =
        frame === 0
          ? half === 0
            ? 0
            : Number.NEGATIVE_INFINITY
          : (scores[place + shift] ?? Number.NEGATIVE_INFINITY);
      const advance =
        frame === 0 ? Number.NEGATIVE_INFINITY : (scores[place + shift - 1] ?? Number.NEGATIVE_INFINITY);
      const away = (half + 0.5 - (frame + 0.5) * rate) / PARTS;
      next[place] = Math.max(stay, advance) + row[half % row.length]![frame]! - UNEVEN * away * away;
      if (advance > stay) advanced[frame * width + place] = 1;
    }
    scores = next;
  }
  const last = length - 1 - lowest(frames - 1);
  const score = (scores[last] ?? Number.NEGATIVE_INFINITY) / frames;
  if (!(score > atLeast)) return null;
  const path = new Array<number>(frames);
  let half = length - 1;
  for (let frame = frames - 1; frame >= 0; frame--) {
    path[frame] = half;
    if (advanced[frame * width + half - lowest(frame)] === 1) half -= 1;
  }
  return { score, path };
}

/** Seconds of each bar line: where its chord comes in; bars in which a chord goes on have even shares of its time. */
function linesOf(
  row: readonly Float64Array[],
  path: readonly number[],
  bars: number,
  boundaries: readonly number[],
): number[] {
  const chordAtHalf = (half: number) => row[half % row.length];
  const lines: number[] = [];
  for (let bar = 0; bar < bars; ) {
    let next = bar + 1;
    while (next < bars && chordAtHalf(next * PARTS) === chordAtHalf(next * PARTS - 1)) next += 1;
    const from = boundaries[path.indexOf(bar * PARTS)]!;
    const to = next === bars ? boundaries.at(-1)! : boundaries[path.indexOf(next * PARTS)]!;
    const first = bar;
    for (; bar < next; bar++) lines.push(from + ((to - from) * (bar - first)) / (next - first));
  }
  return [...lines, boundaries.at(-1)!];
}
