/** Small lines for tests: notes placed on a chart without a file behind them. */
import type { Alignment } from "../../src/align/types.ts";
import type { Chart } from "../../src/chart/index.ts";
import type { MotifNote } from "../../src/motif/index.ts";

export interface PlayedNote {
  readonly pitch: number;
  /** Snapped chart position and length in quarter-note beats. */
  readonly at: number;
  readonly beats: number;
  /** Performed minus snapped, in quarter-note beats; 0 when left out, null for notation. */
  readonly timing?: number | null;
  readonly finger?: 1 | 2 | 3 | 4 | 5;
  readonly degree?: MotifNote["degree"];
  readonly phrase?: string;
}

export interface Playing {
  /** Quarter notes a minute. */
  readonly tempo?: number;
  /** Bars of the chorus. */
  readonly bars?: number;
  readonly rubato?: boolean;
}

/** Notes as the aligner would place them, all of the right hand and of the solo, in 4/4. */
export function played(notes: readonly PlayedNote[], playing: Playing = {}): MotifNote[] {
  const { tempo = 120, bars = 12, rubato = false } = playing;
  const second = tempo / 60;
  return notes.map((note, i) => {
    const onset = (note.at + (note.timing ?? 0) + 8) / second;
    const bar = Math.floor(note.at / 4);
    return {
      id: `n${i + 1}`,
      pitch: note.pitch,
      onset,
      duration: note.beats / second,
      sounding: note.beats / second,
      velocity: 80,
      tick: Math.round(note.at * 480),
      ticks: Math.round(note.beats * 480),
      part: "t1",
      printed: null,
      hand: "right",
      solo: true,
      chorus: Math.max(1, 1 + Math.floor(bar / bars)),
      bar: bar < 0 ? bar + 1 : 1 + (bar % bars),
      beat: rubato ? null : 1 + (((note.at % 4) + 4) % 4),
      position: rubato ? null : note.at,
      beats: rubato ? null : note.beats,
      timing: rubato || note.timing === null ? null : (note.timing ?? 0),
      span: 0,
      degree: note.degree ?? null,
      finger: note.finger ?? null,
      phrase: note.phrase ?? null,
    };
  });
}

/** Even notes one after the other: pitches, from a beat on, each `beats` long. */
export function even(pitches: readonly number[], from: number, beats: number): PlayedNote[] {
  return pitches.map((pitch, i) => ({ pitch, at: from + i * beats, beats: beats * 0.95 }));
}

/** An empty chart in 4/4; what stands in the bars does not matter to time. */
export function chartOf(bars = 12, meter = { beats: 4, unit: 4 }): Chart {
  return {
    name: null,
    key: { tonic: "C", tonicClass: 0, mode: "major" },
    meter,
    idiom: "blues",
    bars: Array.from({ length: bars }, (_, i) => ({ number: i + 1, key: null, chords: [] })),
  };
}

/** A steady beat under the notes of `played`. */
export function steady(
  method: Alignment["method"] = "click",
  tempo = 120,
  bars: Alignment["bars"] = [],
): Alignment {
  return {
    method,
    confidence: 1,
    choruses: 1,
    pickupBeats: 0,
    tempo: method === "rubato" ? null : { median: tempo, slowest: tempo, fastest: tempo },
    map: [
      { seconds: 0, position: -8 },
      { seconds: 60, position: tempo - 8 },
    ],
    bars,
    anchors: [],
    warnings: [],
    ...(method === "click" ? { clicked: true } : {}),
  };
}
