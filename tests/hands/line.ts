/** Lines for tests: pitches in even steps over a chart, as the hand sees them. */
import { type Chart, type ChordSpan, chordSpans, parseChart } from "../../src/chart/index.ts";
import type { HandNote } from "../../src/hands/index.ts";
import type { Finger, Hand, PrintedFinger } from "../../src/take/index.ts";

export interface LineOptions {
  /** Quarter-note beats from note to note, one for each note, or one for all. */
  readonly beats?: number | readonly number[];
  readonly secondsPerBeat?: number;
  readonly hand?: Hand;
  /** Printed marks by index of the note: "3", or "2-3" for a substitution. */
  readonly printed?: Readonly<Record<number, string>>;
}

export interface Line {
  readonly chart: Chart;
  readonly spans: ChordSpan[];
  readonly notes: HandNote[];
}

/** A line over a chart in text. A list in the place of a pitch is struck together; null is a rest of that step. */
export function line(
  chartText: string,
  pitches: readonly (number | readonly number[] | null)[],
  options: LineOptions = {},
): Line {
  const chart = parseChart(chartText);
  const spans = chordSpans(chart);
  const chorusBeats = chart.bars.length * 4;
  const notes: HandNote[] = [];
  let position = 0;
  const perBeat = options.secondsPerBeat ?? 0.5;
  pitches.forEach((step, i) => {
    const beats = typeof options.beats === "number" ? options.beats : (options.beats?.[i] ?? 0.5);
    const inside = position % chorusBeats;
    const span = spans.findIndex((one) => inside >= one.start && inside < one.start + one.beats);
    for (const pitch of step === null ? [] : [step].flat()) {
      const marks = options.printed?.[notes.length];
      notes.push({
        id: `n${notes.length + 1}`,
        pitch,
        onset: position * perBeat,
        duration: beats * perBeat * 0.95,
        sounding: beats * perBeat,
        velocity: 80,
        tick: Math.round(position * 480),
        ticks: Math.round(beats * 480),
        part: "t1",
        printed: marks === undefined ? null : printed(marks),
        hand: options.hand ?? "right",
        solo: true,
        chorus: Math.floor(position / chorusBeats) + 1,
        bar: Math.floor(inside / 4) + 1,
        beat: (inside % 4) + 1,
        position,
        beats,
        timing: 0,
        span,
        degree: null,
      });
    }
    position += beats;
  });
  return { chart, spans, notes };
}

function printed(marks: string): NonNullable<HandNote["printed"]> {
  const fingering = marks
    .split("-")
    .map(
      (mark, k): PrintedFinger => ({ finger: Number(mark) as Finger, substitution: k > 0, alternate: false }),
    );
  return {
    spelling: "C4",
    fingering,
    grace: null,
    staff: 1,
    voice: "1",
    bar: 0,
    documentId: null,
    lyric: null,
  };
}
