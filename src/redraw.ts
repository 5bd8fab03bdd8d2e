/** Chance made from a take: the same notes with their pitches drawn or shuffled, or moved in time. */
import { shuffler } from "d3-array";
import type { Chart, ChordSpan } from "./chart/index.ts";
import type { Null } from "./findings/index.ts";
import { type Chance, chanceFrom } from "./statistics/chance.ts";
import { type Alignment, type PlacedNote, secondsWalker } from "./take/index.ts";

/** What a draw needs to know of a take's place on its chart. */
export interface DrawnFrom {
  /** The line in time order. */
  readonly solo: readonly PlacedNote[];
  readonly chart: Chart;
  readonly spans: readonly ChordSpan[];
  readonly alignment: Pick<Alignment, "map">;
}

/** Seeds of the nulls lie apart, so that draws of one say nothing of another's. */
const SEEDS: Readonly<Record<Null, number>> = {
  "pitches drawn": 0x1000,
  "pitches shuffled": 0x2000,
  "moved in time": 0x3000,
};

/** The line as a draw of chance has it. The same seed and draw give the same notes. */
export function drawNotes(from: DrawnFrom, kind: Null, draw: number, seed = 0): readonly PlacedNote[] {
  if (kind === "moved in time") return moveNotes(from, drawGaps(from, draw, seed));
  return repitched(from.solo, drawPitches(from, kind, draw, seed));
}

/** The pitches of the line in a draw; its own where `draw` is null. */
export function drawPitches(
  { solo }: DrawnFrom,
  kind: Exclude<Null, "moved in time">,
  draw: number | null,
  seed = 0,
): number[] {
  const own = solo.map(({ pitch }) => pitch);
  if (draw === null) return own;
  const chance = chanceOf(kind, draw, seed);
  return kind === "pitches drawn" ? drawnFromRange(own, chance) : shuffler(chance)(own);
}

function drawnFromRange(pitches: readonly number[], chance: Chance): number[] {
  const low = Math.min(...pitches);
  const size = Math.max(...pitches) - low + 1;
  return pitches.map(() => low + Math.floor(chance() * size));
}

function repitched(solo: readonly PlacedNote[], pitches: readonly number[]): PlacedNote[] {
  return solo.map((note, i) => ({ ...note, pitch: pitches[i]!, printed: null, corrected: null }));
}

function chanceOf(kind: Null, draw: number, seed: number): Chance {
  return chanceFrom(SEEDS[kind] + draw + Math.imul(seed, 0x9e3779b1));
}

/** For each note but the last, the note whose gap follows it in a draw; its own where `draw` is null. */
export function drawGaps({ solo }: DrawnFrom, draw: number | null, seed = 0): number[] {
  const own = solo.slice(1).map((_, i) => i);
  return draw === null ? own : shuffler(chanceOf("moved in time", draw, seed))(own);
}

/** The same notes with the gaps between their onsets in another order; silences move as parts of their gaps. */
function moveNotes(from: DrawnFrom, gaps: readonly number[]): readonly PlacedNote[] {
  return mover(from)(gaps);
}

type Mutable<T> = { -readonly [K in keyof T]: T[K] };

/**
 * A function from gaps, as `drawGaps` gives them, to the same notes with their gaps in that order; silences move as
 * parts of their gaps. Its notes are good until it is called again.
 */
export function mover(from: DrawnFrom): (gaps: readonly number[]) => readonly PlacedNote[] {
  const { solo } = from;
  const moved = solo.map((note): Mutable<PlacedNote> => ({ ...note }));
  const rubato = solo.some((note) => note.position === null);
  const ats = solo.map((note) => (rubato ? note.onset : note.position!));
  const place = rubato ? null : placer(from);
  return (gaps) => {
    let now = ats[0] ?? 0;
    for (let i = 0; i < moved.length; i++) {
      const note = moved[i]!;
      // A note takes the length of the one whose gap it is given, so that silences stay where the gap has them.
      const from = gaps[i] ?? i;
      const source = solo[from]!;
      note.duration = source.duration;
      note.sounding = source.sounding;
      note.beats = source.beats;
      if (place === null) note.onset = now;
      else place(note, now, source);
      now += i < gaps.length ? ats[from + 1]! - ats[from]! : 0;
    }
    return moved;
  };
}

/** Puts a note where a chart position falls: chorus, bar, beat, span and moment. */
function placer({ chart, spans, alignment }: DrawnFrom) {
  const bar = (chart.meter.beats * 4) / chart.meter.unit;
  const bars = chart.bars.length;
  const spanAt = spanWalker(spans);
  const secondsAt = secondsWalker(alignment.map);
  return (note: Mutable<PlacedNote>, position: number, source: PlacedNote): void => {
    const barIndex = Math.floor(position / bar + 1e-9);
    const inBar = position - barIndex * bar;
    const local = position - Math.floor(position / (bar * bars)) * bar * bars;
    note.position = position;
    note.onset = secondsAt(position + (source.timing ?? 0));
    note.timing = source.timing;
    note.chorus = Math.max(1, Math.floor(barIndex / bars) + 1);
    note.bar = barIndex < 0 ? barIndex + 1 : (barIndex % bars) + 1;
    note.beat = 1 + (inBar * chart.meter.unit) / 4;
    note.span = spanAt(local + 1e-9);
  };
}

/** Index of the span at a place of the form, sought from the one that was asked for before. */
function spanWalker(spans: readonly ChordSpan[]): (place: number) => number {
  let k = 0;
  return (place) => {
    while (k + 1 < spans.length && spans[k + 1]!.start <= place) k++;
    while (k > 0 && spans[k]!.start > place) k--;
    return k;
  };
}
