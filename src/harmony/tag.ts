/**
 * The chords of an ending tag: bars after the last chorus, for which the chart itself says nothing. Players stay on
 * the last chord, go round to the first, or play the form's last one, two or four bars again [practice]; what is heard
 * decides between them, and where it does not, that is said.
 */
import { bisectRight } from "d3-array";
import { quartersPerBar } from "../chart/index.ts";
import type { Chart, ChordSpan } from "../chart/types.ts";
import type { PlacedNote, Warning } from "../take/index.ts";
import { barsInWords, listInWords } from "../words/index.ts";
import { type Sounding, soundingTable } from "./harmonic-role.ts";

/** For each bar of the tag, in order, the bar of the form (from 1) whose chords it has. */
type Way = readonly number[];

/** Bars at the form's end that players play again. [practice] */
const AGAIN: readonly number[] = [1, 2, 4];

/** What a second of a note's time counts for: on a chord tone, on a tension or blue note, on any other. [practice] */
const FITS = { chordTone: 1, colour: 0.4, other: 0 } as const;

/** What the comping hand plays are the chords themselves. [practice] */
const COMPING = 2;

/**
 * A way is sure where it fits better than any that sounds otherwise by so much, of 1. Of tags made of the form's own
 * bars, from improvised solos, nine in ten that are sure by the line alone are right; where the other hand plays the
 * chords, one chord among several that differs is enough. [practice]
 */
const MARGIN = { line: 0.3, comping: 0.1 } as const;
/** Fewer notes than this decide nothing. [practice] */
const FEWEST = 4;

/**
 * The notes with the chords that their tag is heard over, and a warning where several ways of playing it fit as well.
 * Notes within the form are handed on as they are.
 *
 * @param placed all notes; those of a tag stand in bars past the chart's last
 */
export function hearTag(
  placed: readonly PlacedNote[],
  chart: Chart,
  spans: readonly ChordSpan[],
): { readonly placed: readonly PlacedNote[]; readonly warnings: readonly Warning[] } {
  const form = chart.bars.length;
  const tag = placed.filter((note) => note.bar > form);
  if (tag.length === 0) return { placed, warnings: [] };
  const bars = Math.max(...tag.map((note) => note.bar)) - form;
  const starts = spans.map(({ start }) => start);
  const tables = spans.map((span) => soundingTable(span));
  const spanIn = (way: Way) => (note: PlacedNote) =>
    spanAt(way[note.bar - form - 1]!, note.beat, chart, starts);
  const weighed = waysOf(form, bars, spans)
    .map((way) => ({ way, fit: fitOf(tag, spanIn(way), tables) }))
    .sort((a, b) => b.fit - a.fit);
  const best = weighed[0]!;
  const symbols = (way: Way) => tag.map((note) => spans[spanIn(way)(note)]!.symbol).join(" ");
  const other = weighed.find(({ way }) => symbols(way) !== symbols(best.way));
  const margin = tag.filter((note) => !note.solo).length >= FEWEST ? MARGIN.comping : MARGIN.line;
  const isSure = other === undefined || (tag.length >= FEWEST && best.fit - other.fit >= margin);
  const heard = placed.map((note) => (note.bar > form ? { ...note, span: spanIn(best.way)(note) } : note));
  return { placed: heard, warnings: isSure ? [] : [inDoubt(bars, best.way, chart, spans)] };
}

/** Ways of going on after a form of so many bars: staying on its last chord (its last bar's end) is the first. */
function waysOf(form: number, bars: number, spans: readonly ChordSpan[]): Way[] {
  const way = (barAt: (k: number) => number): Way => Array.from({ length: bars }, (_, k) => barAt(k));
  const stays = spans.at(-1)!.bar === form && spans.at(-1)!.beat === 1;
  return [
    ...(stays ? [] : [way(() => LAST)]),
    ...AGAIN.filter((size) => size <= form).map((size) => way((k) => form - size + 1 + (k % size))),
    way((k) => (k % form) + 1),
  ];
}

/** Stands for the form's very last chord, held, where its last bar has others before it. */
const LAST = 0;

/** The span that sounds in a bar of the form; in rubato, without a beat, the bar's first. */
function spanAt(bar: number, beat: number | null, chart: Chart, starts: readonly number[]): number {
  if (bar === LAST) return starts.length - 1;
  const within = ((beat ?? 1) - 1) * (4 / chart.meter.unit);
  const position = (bar - 1) * quartersPerBar(chart.meter) + within;
  return Math.max(0, bisectRight(starts, position + 1e-6) - 1);
}

/** Share, 0 to 1, of the notes' time that the chords of a way explain. */
function fitOf(
  tag: readonly PlacedNote[],
  spanOf: (note: PlacedNote) => number,
  tables: readonly (readonly Sounding[])[],
): number {
  let [fit, all] = [0, 0];
  for (const note of tag) {
    const weight = note.duration * (note.solo ? 1 : COMPING);
    const { chordTone, role } = tables[spanOf(note)]![note.pitch % 12]!;
    const isColour = role === "tension" || role === "blue";
    fit += weight * (chordTone ? FITS.chordTone : isColour ? FITS.colour : FITS.other);
    all += weight;
  }
  return all === 0 ? 0 : fit / all;
}

function inDoubt(bars: number, way: Way, chart: Chart, spans: readonly ChordSpan[]): Warning {
  const form = chart.bars.length;
  const names = Array.from({ length: bars }, (_, k) => form + k + 1);
  const chords = way.flatMap((bar) =>
    bar === LAST
      ? [spans.at(-1)!.symbol]
      : spans.filter((span) => span.bar === bar).map(({ symbol }) => symbol),
  );
  const told = chords.filter((symbol, k) => symbol !== chords[k - 1]);
  return {
    code: "tag-in-doubt",
    message:
      `What sounds under ${barsInWords(names)}, after the last chorus, is in doubt; the notes are read over ` +
      `${listInWords(told)}. Write the tag into the chart if it is another.`,
    where: barsInWords(names),
  };
}
