import { Problem, type Take } from "../take/index.ts";
import { MAX_CHART_BARS } from "./chart-reader.ts";
import { parseChord } from "./chord-symbol.ts";
import { formLength } from "./period.ts";
import { barsOf, mainMeter, type TakeBar } from "./take-bars.ts";
import { settingInTake } from "./take-key.ts";
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
 * the chords make most sense, with the key signature as witness.
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
  return { name: take.title, ...settingInTake(bars, take), meter, bars };
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
