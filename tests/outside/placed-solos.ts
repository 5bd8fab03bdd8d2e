/**
 * The open solos (`open-solos.ts`) as notes placed on their chart: every note in the bar and beat that people annotated
 * it in, and not where our own alignment puts it. Source: the Weimar Jazz Database of the Jazzomat research project,
 * by way of the R package jazzodata [lit]. Nothing of it is kept in the project.
 */
import { type Chart, type ChordSpan, chordSpans, parseChart } from "../../src/chart/index.ts";
import type { PlacedNote } from "../../src/take/index.ts";
import { type OpenNote, type OpenSolo, openSolos } from "./open-solos.ts";

export interface PlacedSolo {
  readonly id: string;
  readonly chart: Chart;
  readonly spans: readonly ChordSpan[];
  readonly notes: readonly PlacedNote[];
  /** Phrase of each note as annotated, parallel to `notes`. */
  readonly phrases: readonly string[];
}

/** All open solos on their charts, or none where they are missing. */
export function placedSolos(): PlacedSolo[] {
  return openSolos().map(placed);
}

function placed(solo: OpenSolo): PlacedSolo {
  const chart = parseChart(solo.chart);
  const spans = chordSpans(chart);
  const quarter = 4 / chart.meter.unit;
  const bar = chart.meter.beats * quarter;
  const chorus = chart.bars.length * bar;
  const seconds = solo.beats.map((beat) => beat.seconds);
  const notes = solo.notes.map((note, i): PlacedNote => {
    const beat = note.beat + (note.tatum - 1) / note.division;
    const position = (note.bar - 1) * bar + (beat - 1) * quarter;
    const turn = Math.max(0, Math.floor((note.bar - 1) / chart.bars.length));
    const place = (((position % chorus) + chorus) % chorus) + 1e-6;
    const length = (note.duration / secondsOfBeat(seconds, note)) * quarter;
    return {
      id: `n${i + 1}`,
      pitch: note.pitch,
      onset: note.onset,
      duration: note.duration,
      sounding: note.duration,
      velocity: 80,
      tick: Math.round(position * 480),
      ticks: Math.round(length * 480),
      part: "solo",
      printed: null,
      hand: "right",
      solo: true,
      chorus: turn + 1,
      bar: note.bar - turn * chart.bars.length,
      beat,
      position,
      beats: length,
      timing: 0,
      span: spans.findLastIndex((span) => span.start <= place),
    };
  });
  return { id: solo.id, chart, spans, notes, phrases: solo.notes.map((note) => note.phrase) };
}

/** Length of the beat that a note lies in, by which its length in beats is its performed length. */
function secondsOfBeat(beats: readonly number[], { onset }: OpenNote): number {
  const after = beats.findIndex((beat) => beat > onset);
  const at = after === -1 ? beats.length - 1 : Math.max(1, after);
  return beats[at]! - beats[at - 1]!;
}
