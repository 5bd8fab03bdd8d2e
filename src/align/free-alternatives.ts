/** Other readings of a freely played take by name. */
import { quartersPerBar } from "../chart/index.ts";
import type { Chart } from "../chart/types.ts";
import type { AlignmentAlternative, Take, TimeMap } from "../take/index.ts";
import { positionAt } from "../take/index.ts";
import { countChoruses } from "./form.ts";
import { type FreeReading, freeMap, usualBeat } from "./free/lay-freely.ts";
import type { OtherReading } from "./free/other-readings.ts";
import type { Anchor } from "./types.ts";

/** Readings less likely than this are not worth a line. */
const LEAST = 0.03;
/** Bars from one pin to the next where bars begin on another beat: between them the beat is followed as before. */
const PIN_EVERY = 4;
/** Tempos that can be told, in quarter notes a minute. */
const [SLOWEST, FASTEST] = [20, 400];
const NUMBERS = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight"];

export function freeAlternatives(
  reading: FreeReading,
  others: readonly OtherReading[],
  { notes }: Take,
  chart: Chart,
): AlignmentAlternative[] {
  const { quarters, bar } = reading.form;
  const tempo = (60 * quarters) / usualBeat(reading);
  const map = freeMap(reading);
  const end = positionAt(map, notes.at(-1)!.onset);
  return others.flatMap(({ pace, later, share }) => {
    if (share < LEAST || tempo * pace < SLOWEST || tempo * pace > FASTEST) return [];
    const last = pace * end - later * quarters;
    const bars = Math.max(1, Math.floor((last + 0.15) / quartersPerBar(chart.meter)) + 1);
    return [
      {
        tempo: tempo * pace,
        choruses: countChoruses(bars, chart.bars.length),
        firstBar: 1,
        score: share,
        why: pace === 2 ? "twice as fast" : pace === 0.5 ? "half as fast" : beginning(later, bar),
        ...(later === 0 ? {} : { pins: pinsOf(map, later, reading, chart) }),
      },
    ];
  });
}

/** Of four beats, three later is one earlier. */
function beginning(later: number, bar: number): string {
  const [beats, way] = later * 2 > bar ? [bar - later, "earlier"] : [later, "later"];
  return `bars begin ${NUMBERS[beats] ?? beats} ${beats === 1 ? "beat" : "beats"} ${way}`;
}

/** Pins on bar lines of the other reading, as they sound. */
function pinsOf(map: TimeMap, later: number, { form }: FreeReading, chart: Chart): Anchor[] {
  const knots = map.map(({ seconds, position }) => ({
    seconds,
    beat: Math.round(position / form.quarters) - later,
  }));
  const lines = knots.filter(({ beat }) => beat >= 0 && beat % form.bar === 0);
  const length = chart.bars.length;
  return lines
    .filter((_, i) => i % PIN_EVERY === 0 || i === lines.length - 1)
    .map(({ seconds, beat }) => ({
      seconds: Number(seconds.toFixed(4)),
      chorus: Math.floor(beat / form.bar / length) + 1,
      bar: ((beat / form.bar) % length) + 1,
      beat: 1,
    }));
}
