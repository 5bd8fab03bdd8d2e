import type { KeyMark, MeterMark, TempoMark } from "../../take/index.ts";
import { Problem } from "../../take/index.ts";
import { counted } from "../../words/index.ts";
import { timeTempos } from "../clock.ts";
import type { WarningCollector } from "../warning-collector.ts";
import { META, type MetaEvent, type MidiTrack } from "./midi-track.ts";

/** What the tracks say together about time, meter and key. */
export interface Conductor {
  readonly ticksPerQuarter: number;
  readonly tempos: readonly TempoMark[];
  readonly tempoStated: boolean;
  readonly meters: readonly MeterMark[];
  readonly meterStated: boolean;
  readonly keys: readonly KeyMark[];
}

/** The standard's tempo until another is set, in quarter notes a minute. */
const DEFAULT_TEMPO = 120;

/** Frames a second by the header's rate byte; 29 stands for drop-frame time of 30/1.001. */
const FRAME_RATES: ReadonlyMap<number, number> = new Map([
  [24, 24],
  [25, 25],
  [29, 30 / 1.001],
  [30, 30],
]);

/**
 * Reads tempo, meter and key from all tracks: format 1 wants them in the first, but files keep them anywhere.
 *
 * SMPTE time has no quarter notes: a quarter is then said to be one second, so that ticks stay whole and exact.
 *
 * @param division The header's division word, signed.
 * @throws Problem when the division is 0 or an SMPTE rate that the standard does not know.
 */
export function readConductor(
  tracks: readonly MidiTrack[],
  division: number,
  warnings: WarningCollector,
): Conductor {
  const changes: { tick: number; quartersPerMinute: number }[] = [];
  const meters: MeterMark[] = [];
  const keys: KeyMark[] = [];
  for (const track of tracks) {
    for (const meta of track.metas) {
      const { tick } = meta;
      const where = `track ${track.number}, tick ${tick}`;
      if (meta.type === META.tempo) {
        const quartersPerMinute = tempoOf(meta);
        if (quartersPerMinute === null) skip("tempo", where, warnings);
        else changes.push({ tick, quartersPerMinute });
      } else if (meta.type === META.meter) {
        const meter = meterOf(meta);
        if (meter === null) skip("time signature", where, warnings);
        else meters.push({ tick, ...meter });
      } else if (meta.type === META.key) {
        const key = keyOf(meta);
        if (key === null) skip("key signature", where, warnings);
        else keys.push({ tick, ...key });
      }
    }
  }
  changes.sort((a, b) => a.tick - b.tick);
  const time = division > 0 ? metrical(division, changes) : smpte(division, changes.length, warnings);
  const sortedMeters = settle(meters, (a, b) => a.beats === b.beats && a.unit === b.unit);
  if (sortedMeters[0]?.tick !== 0) sortedMeters.unshift({ tick: 0, beats: 4, unit: 4 });
  return {
    ...time,
    meters: sortedMeters,
    meterStated: meters.length > 0,
    keys: settle(keys, (a, b) => a.fifths === b.fifths && a.mode === b.mode),
  };
}

/** Three bytes: microseconds to a quarter note. */
function tempoOf({ data: [high = 0, middle = 0, low = 0] }: MetaEvent): number | null {
  const microseconds = (high << 16) | (middle << 8) | low;
  return microseconds > 0 ? 60_000_000 / microseconds : null;
}

/** Beats, and the note value of one as a power of two; beyond the 64th there is no note value. */
function meterOf({ data: [beats = 0, power = 0] }: MetaEvent): { beats: number; unit: number } | null {
  return beats > 0 && power <= 6 ? { beats, unit: 2 ** power } : null;
}

/** Sharps, flats below zero, and 1 for minor. */
function keyOf({ data: [sharps = 0, minor = 0] }: MetaEvent): Omit<KeyMark, "tick"> | null {
  const fifths = (sharps << 24) >> 24;
  return Math.abs(fifths) <= 7 && minor <= 1 ? { fifths, mode: minor === 1 ? "minor" : "major" } : null;
}

function metrical(ticksPerQuarter: number, changes: readonly { tick: number; quartersPerMinute: number }[]) {
  const tempos = timeTempos(changes, ticksPerQuarter, DEFAULT_TEMPO);
  return { ticksPerQuarter, tempos, tempoStated: changes.length > 0 };
}

function smpte(division: number, tempos: number, warnings: WarningCollector) {
  const rate = -(division >> 8);
  const ticksPerFrame = division & 0xff;
  const frames = FRAME_RATES.get(rate);
  if (frames === undefined || ticksPerFrame === 0) {
    throw new Problem(
      "bad-division",
      division === 0
        ? "The MIDI header says that a quarter note has 0 ticks, so no time can be told"
        : `The MIDI header states ${rate} SMPTE frames a second with ${ticksPerFrame} ticks each`,
      "byte 12",
      "Export the file again.",
    );
  }
  warnings.add(
    "smpte-time",
    "byte 12",
    () =>
      `The file keeps time in SMPTE frames, not in beats${tempos > 0 ? "; its tempo marks were left out" : ""}. Seconds are exact, beats must be found by ear.`,
  );
  const nominal = Math.ceil(frames);
  const quartersPerMinute = (60 * frames) / nominal;
  return {
    ticksPerQuarter: nominal * ticksPerFrame,
    tempos: timeTempos([], nominal * ticksPerFrame, quartersPerMinute),
    tempoStated: false,
  };
}

function skip(what: string, where: string, warnings: WarningCollector): void {
  warnings.add(
    `impossible-${what.replace(" ", "-")}`,
    where,
    (times) => `${counted(times, `impossible ${what}`)} ${times === 1 ? "was" : "were"} left out.`,
  );
}

/** In order of time; of several at one tick the last stands, and what changes nothing is dropped. */
function settle<T extends { readonly tick: number }>(
  marks: readonly T[],
  same: (a: T, b: T) => boolean,
): T[] {
  const settled: T[] = [];
  for (const mark of [...marks].sort((a, b) => a.tick - b.tick)) {
    if (settled.at(-1)?.tick === mark.tick) settled.pop();
    const before = settled.at(-1);
    if (before === undefined || !same(before, mark)) settled.push(mark);
  }
  return settled;
}
