/**
 * Solos that people improvised, with true beats and charts, where the data stands beside the project; the conditions
 * under which they are laid, and the scores of a laying.
 */
import { parseChart } from "../../src/chart/index.ts";
import type { Chart } from "../../src/chart/types.ts";
import type { Note, Take } from "../../src/take/index.ts";
import { drawnSolos, OPEN_SOLOS_MISSING, type OpenSolo } from "../outside/open-solos.ts";
import { emptyTake } from "../take/empty-take.ts";

export const SOLOS_THERE = OPEN_SOLOS_MISSING === null;

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
  /** Kin of its instrument: no player stands in two (see `OpenSolo`). */
  readonly kin: number;
}

/** Solos of one half, or of both, as they are laid; the first `most` are a fair draw. */
export function readSolos(half: 0 | 1 | "all", most = Number.POSITIVE_INFINITY): HumanSolo[] {
  return drawnSolos(half, most).map(humanSolo);
}

function humanSolo(solo: OpenSolo): HumanSolo {
  const chart = parseChart(solo.chart);
  const beatsInBar = chart.meter.beats;
  const beats = solo.beats.map(({ seconds, bar, beat }) => ({
    seconds,
    place: (bar - 1) * beatsInBar + beat - 1,
  }));
  const notes = solo.notes.map(({ onset, duration, pitch }) => ({
    onset,
    duration: Math.max(0.02, duration),
    pitch,
    place: placeAt(beats, onset),
  }));
  return { id: solo.id, tempo: Number(solo.facts.tempo), chart, beatsInBar, notes, beats, kin: solo.kin };
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
  return emptyTake({
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
    ...(said.tempos === undefined ? {} : { tempos: said.tempos }),
    tempoStated: said.stated ?? false,
    meters: [{ tick: 0, ...(said.meter ?? { beats: 4, unit: 4 }) }],
    meterStated: said.meterStated ?? false,
  });
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
