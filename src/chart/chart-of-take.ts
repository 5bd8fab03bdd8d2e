import { type KeyMark, Problem, type Take } from "../take/index.ts";
import { MAX_CHART_BARS } from "./chart-reader.ts";
import { parseChord } from "./chord-symbol.ts";
import { isKey } from "./key.ts";
import { formLength } from "./period.ts";
import { barsOf, mainMeter, type TakeBar } from "./take-bars.ts";
import { keyUnder, settingInTake } from "./take-key.ts";
import type { Chart, ChartBar, ChartChord, Chord, Meter } from "./types.ts";

/** A chord symbol of the source, read, in ticks. */
interface ReadChord {
  readonly tick: number;
  readonly chord: Chord | null;
  readonly symbol: string;
}

/**
 * The chart of one chorus from the chord symbols that the take itself carries (MusicXML harmony, MIDI text), or null
 * when it carries none. What is played out several times is folded to the shortest form that returns; where choruses
 * differ, the chords of most choruses stand. Bars before the first symbol are left out. The key is the one in which
 * the chords make most sense, with the key signature as witness; where the source changes its signature on the way,
 * each stretch has the key of its own chords and signature.
 */
export function chartOfTake(take: Take): Chart | null {
  const read = readSymbols(take);
  if (read.every(({ chord }) => chord === null)) return null;
  const meter = mainMeter(take);
  const phase = take.bars.length > 0 ? 0 : phaseOf(read, take, meter);
  const all = barsOf(take, phase);
  const first = all.findIndex((bar) => bar.tick + bar.ticks > read[0]!.tick);
  const played = chordsOfBars(read, all.slice(Math.max(first, 0)), take, meter);
  const signatures = played.map((bar) => bar.map(({ symbol, beat }) => `${symbol}@${beat}`).join(" "));
  const length = Math.min(formLength(signatures), MAX_CHART_BARS);
  const bars: ChartBar[] = Array.from({ length }, (_, index) => ({
    number: index + 1,
    key: null,
    chords: mostPlayed(played, signatures, index, length),
  }));
  const marks = all.slice(Math.max(first, 0)).map(({ tick }) => signatureAt(take, tick));
  return { name: take.title, meter, ...inKeys(bars, marks, take) };
}

/** The signature in force at a tick; null where the source has none. */
function signatureAt(take: Take, tick: number): KeyMark | null {
  return take.keys.findLast((mark) => mark.tick <= tick) ?? take.keys[0] ?? null;
}

/** The chart's bars in their keys: one for all, or one for each stretch under one signature. */
function inKeys(
  bars: readonly ChartBar[],
  marks: readonly (KeyMark | null)[],
  take: Take,
): Pick<Chart, "key" | "idiom" | "bars"> {
  const starts = bars.flatMap((_, bar) =>
    bar === 0 || marks[bar]?.fifths !== marks[bar - 1]?.fifths ? [bar] : [],
  );
  const whole = settingInTake(bars, take);
  if (starts.length <= 1) return { ...whole, bars };
  const keys = starts.map((start, index) => keyUnder(marks[start]!, bars.slice(start, starts[index + 1])));
  const key = keys[0]!;
  const keyed = bars.map((bar, index) => {
    const own = keys[starts.findLastIndex((start) => start <= index)]!;
    return { ...bar, key: isKey(own, key) ? null : own };
  });
  return { key, idiom: whole.idiom, bars: keyed };
}

/** Symbols that cannot be read are passed over: the reader of the file has said so. */
function readSymbols(take: Take): ReadChord[] {
  return take.chords.flatMap(({ tick, text }) => {
    try {
      const chord = parseChord(text);
      return [{ tick, chord, symbol: chord?.symbol ?? "N.C." }];
    } catch (error) {
      if (error instanceof Problem) return [];
      throw error;
    }
  });
}

/** Ticks by which all bar lines of a MIDI file must move, because its chords change off the lines that it claims. */
function phaseOf(read: readonly ReadChord[], take: Take, meter: Meter): number {
  const barTicks = (take.ticksPerQuarter * 4 * meter.beats) / meter.unit;
  const beatTicks = barTicks / meter.beats;
  const counts = new Map<number, number>();
  for (const { tick } of read) {
    const phase = (Math.round(tick / beatTicks) * beatTicks) % barTicks;
    counts.set(phase, (counts.get(phase) ?? 0) + 1);
  }
  const [best, count] = [...counts].reduce((a, b) => (b[1] > a[1] ? b : a), [0, 0]);
  return (counts.get(0) ?? 0) * 4 < count ? best : 0;
}

/** What stands in each bar; a chord sounds on until the next. */
function chordsOfBars(
  read: readonly ReadChord[],
  bars: readonly TakeBar[],
  take: Take,
  meter: Meter,
): ChartChord[][] {
  const beatTicks = (take.ticksPerQuarter * 4) / meter.unit;
  let next = 0;
  let sounding: Pick<ReadChord, "chord" | "symbol"> = { chord: null, symbol: "N.C." };
  return bars.map((bar) => {
    const struck: { chord: Chord | null; symbol: string; beat: number }[] = [];
    for (; next < read.length; next++) {
      const { tick, chord, symbol } = read[next]!;
      const beat = 1 + (snapped(tick, take, beatTicks) - bar.tick) / beatTicks;
      if (beat >= 1 + bar.ticks / beatTicks) break;
      if (beat > 1 && struck.length === 0) struck.push({ ...sounding, beat: 1 });
      sounding = { chord, symbol };
      if (beat <= 1) struck.splice(0, struck.length, { chord, symbol, beat: 1 });
      else if (beat < meter.beats + 1 && symbol !== struck.at(-1)!.symbol)
        struck.push({ chord, symbol, beat });
    }
    if (struck.length === 0) struck.push({ ...sounding, beat: 1 });
    return struck.map((change, index) => ({
      ...change,
      beats: (struck[index + 1]?.beat ?? meter.beats + 1) - change.beat,
      scale: null,
    }));
  });
}

/** Notation is exact; a symbol in a MIDI file stands where its half beat is. */
function snapped(tick: number, take: Take, beatTicks: number): number {
  return take.format === "musicxml" ? tick : (Math.round((tick * 2) / beatTicks) * beatTicks) / 2;
}

/** The bar as most choruses have it; the earliest where they are equal. */
function mostPlayed(
  played: readonly (readonly ChartChord[])[],
  signatures: readonly string[],
  index: number,
  length: number,
): readonly ChartChord[] {
  const counts = new Map<string, { count: number; bar: number }>();
  for (let bar = index; bar < played.length; bar += length) {
    const seen = counts.get(signatures[bar]!);
    if (seen === undefined) counts.set(signatures[bar]!, { count: 1, bar });
    else seen.count += 1;
  }
  const best = [...counts.values()].reduce((a, b) => (b.count > a.count ? b : a));
  return played[best.bar]!;
}
