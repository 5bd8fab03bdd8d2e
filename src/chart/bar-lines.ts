/** Bar lines of a take in seconds, as far as comping goes on. */
import { type Note, secondsOfTick, type Take } from "../take/index.ts";
import { quartersPerBar } from "./meter.ts";
import { barsOf } from "./take-bars.ts";
import type { Meter } from "./types.ts";

/** Longer takes are judged by their start. */
const MAX_BARS = 400;

/** As the meter map of the source has them, with the end of the last bar. */
export function linesStated(take: Take): number[] {
  const bars = barsOf(take);
  const ticks = bars.flatMap((bar, index) =>
    index === bars.length - 1 ? [bar.tick, bar.tick + bar.ticks] : [bar.tick],
  );
  return ticks.map((tick) => secondsOfTick(take, tick));
}

/** From the first note on, at so many quarter notes a minute. */
export function linesAtTempo(take: Take, meter: Meter, tempo: number): number[] {
  const seconds = (60 / tempo) * quartersPerBar(meter);
  const start = take.notes[0]?.onset ?? 0;
  return Array.from({ length: MAX_BARS + 1 }, (_, bar) => start + bar * seconds);
}

/** From the bar in which comping starts to the one in which it ends; a touch early counts as on the line. */
export function soundingLines(lines: readonly number[], comping: readonly Note[]): number[] {
  const first = comping.reduce((early, note) => Math.min(early, note.onset), Number.POSITIVE_INFINITY);
  const end = comping.reduce((late, note) => Math.max(late, note.onset), 0);
  const touch = (lines[1]! - lines[0]!) / 8;
  const from = lines.findLastIndex((line) => line <= first + touch);
  const to = lines.findIndex((line) => line > end + touch);
  return lines.slice(Math.max(from, 0), to < 0 ? lines.length : to + 1).slice(0, MAX_BARS + 1);
}

/** The lines with so many equal parts between each two of them. */
export function divided(lines: readonly number[], parts: number): number[] {
  const boundaries: number[] = [];
  for (let i = 0; i + 1 < lines.length; i++) {
    for (let part = 0; part < parts; part++) {
      boundaries.push(lines[i]! + ((lines[i + 1]! - lines[i]!) * part) / parts);
    }
  }
  boundaries.push(lines.at(-1)!);
  return boundaries;
}
