/**
 * Solos that people improvised, with true beats and charts, where the data stands beside the project; the conditions
 * under which they are laid, and the scores of a laying.
 */
import { existsSync, readFileSync } from "node:fs";
import { parseChart } from "../../src/chart/index.ts";
import type { Chart } from "../../src/chart/types.ts";
import type { Note, Take } from "../../src/take/index.ts";

const FOLDER = new URL("../../../shared/data/solos/", import.meta.url);

export const SOLOS_THERE = existsSync(new URL("MANIFEST.tsv", FOLDER));

export interface HumanNote {
  readonly onset: number;
  readonly duration: number;
  readonly pitch: number;
  /** Place in beats from the first bar line of bar 1, by the true beats. */
  readonly place: number;
}

export interface HumanSolo {
  readonly id: string;
  readonly tempo: number;
  readonly chart: Chart;
  readonly beatsInBar: number;
  readonly notes: readonly HumanNote[];
  /** Seconds of each true beat, and its place (whole beats from bar 1). */
  readonly beats: readonly { readonly seconds: number; readonly place: number }[];
}

/** The half that a solo falls into: by a hash (FNV-1a) of its name, since players are not named. */
export function halfOf(id: string): 0 | 1 {
  let hash = 0x811c9dc5;
  for (const letter of id) hash = Math.imul(hash ^ letter.charCodeAt(0), 0x01000193) >>> 0;
  return ((hash >>> 16) & 1) as 0 | 1;
}

function rows(name: string): string[][] {
  return readFileSync(new URL(name, FOLDER), "utf8")
    .trimEnd()
    .split("\n")
    .map((line) => line.split("\t"));
}

/** Solos of one half, in the order of their names' hashes, so that the first n are a fair draw. */
export function readSolos(half: 0 | 1, most = Number.POSITIVE_INFINITY): HumanSolo[] {
  const [head, ...body] = rows("MANIFEST.tsv");
  const column = (row: string[], name: string) => row[head!.indexOf(name)]!;
  const chosen = body.filter((row) => halfOf(column(row, "id")) === half);
  const order = (id: string) =>
    [...id].reduce((h, c) => Math.imul(h ^ c.charCodeAt(0), 0x01000193) >>> 0, 0x9747b28c);
  chosen.sort((a, b) => order(column(a, "id")) - order(column(b, "id")));
  return chosen.slice(0, most).map((row) => readSolo(column(row, "id"), Number(column(row, "tempo"))));
}

function readSolo(id: string, tempo: number): HumanSolo {
  const chart = parseChart(readFileSync(new URL(`${id}.chart.txt`, FOLDER), "utf8"));
  const beatsInBar = chart.meter.beats;
  const beats = rows(`${id}.beats.tsv`)
    .slice(1)
    .map(([seconds, bar, beat]) => ({
      seconds: Number(seconds),
      place: (Number(bar) - 1) * beatsInBar + Number(beat) - 1,
    }));
  const notes = rows(`${id}.notes.tsv`)
    .slice(1)
    .map(([onset, duration, pitch]) => ({
      onset: Number(onset),
      duration: Math.max(0.02, Number(duration)),
      pitch: Number(pitch),
      place: placeAt(beats, Number(onset)),
    }));
  return { id, tempo, chart, beatsInBar, notes, beats };
}

function placeAt(beats: HumanSolo["beats"], seconds: number): number {
  let k = 0;
  while (k + 2 < beats.length && beats[k + 1]!.seconds <= seconds) k++;
  const [a, b] = [beats[k]!, beats[k + 1]!];
  return a.place + ((seconds - a.seconds) / (b.seconds - a.seconds)) * (b.place - a.place);
}

export interface PlayedNote {
  readonly onset: number;
  readonly duration: number;
  readonly pitch: number;
  /** Ticks of 480 to a quarter. */
  readonly tick: number;
  readonly part: string;
}

/** A take as a MIDI file of these notes would be read. */
export function takeOf(
  notes: readonly PlayedNote[],
  said: {
    readonly tempos?: Take["tempos"];
    readonly stated?: boolean;
    readonly meterStated?: boolean;
    readonly meter?: { beats: number; unit: number };
  },
): Take {
  const sorted = [...notes].sort((a, b) => a.onset - b.onset || a.pitch - b.pitch);
  const parts = [...new Set(sorted.map(({ part }) => part))].sort();
  return {
    format: "midi",
    title: null,
    ticksPerQuarter: 480,
    notes: sorted.map(
      (note, i): Note => ({
        id: `n${i + 1}`,
        pitch: note.pitch,
        onset: note.onset,
        duration: note.duration,
        sounding: note.duration,
        velocity: 80,
        tick: note.tick,
        ticks: Math.max(1, Math.round(note.duration * 960)),
        part: note.part,
        printed: null,
      }),
    ),
    parts: parts.map((id) => ({
      id,
      name: "",
      staves: 1,
      program: null,
      notes: sorted.filter(({ part }) => part === id).length,
    })),
    tempos: said.tempos ?? [{ tick: 0, seconds: 0, quartersPerMinute: 120 }],
    tempoStated: said.stated ?? false,
    meters: [{ tick: 0, ...(said.meter ?? { beats: 4, unit: 4 }) }],
    meterStated: said.meterStated ?? false,
    keys: [],
    bars: [],
    chords: [],
    texts: [],
    pedal: [],
    swing: null,
    warnings: [],
  };
}

export const CONDITIONS = [
  "chart only",
  "tempo told",
  "three taps",
  "click, beat 1 stated",
  "click alone",
  "comping",
] as const;
export type Condition = (typeof CONDITIONS)[number];
