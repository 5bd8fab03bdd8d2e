import { bisectRight, median } from "d3-array";
/** Gives every note its place on the chart, once the chart's place in time is known. */
import { quartersPerBar } from "../chart/index.ts";
import type { Chart, ChordSpan } from "../chart/types.ts";
import type { Note, PlacedNote, Take } from "../take/index.ts";
import { latenessOf, ONE_STROKE, positionAt, tempoAt } from "../take/index.ts";
import { inForm, placeOf } from "./form.ts";
import { snapOnsets, swingFeel } from "./grid.ts";
import { positionOfTick, sourceGrid } from "./notated.ts";
import type { Alignment, NoteHand } from "./types.ts";

/**
 * Places the notes of a take, parallel to `take.notes`.
 *
 * Notated sources keep their exact positions and have no timing. In rubato, beats, positions and timing are null and
 * the chord is the one that sounds at the onset. Otherwise onsets are snapped to the grid that they were played on
 * (see `snapOnsets`), and `timing` is performed minus snapped onset in quarter-note beats, where a swung off-beat is
 * measured against the take's own swung place.
 *
 * @param spans `chordSpans(chart)`
 */
export function placeNotes(
  take: Take,
  chart: Chart,
  spans: readonly ChordSpan[],
  hands: readonly NoteHand[],
  alignment: Alignment,
): PlacedNote[] {
  const { map, choruses } = alignment;
  const starts = spans.map((span) => span.start);
  const place = (index: number, position: number) => {
    const { hand, solo } = hands[index]!;
    return {
      ...take.notes[index]!,
      hand,
      solo,
      ...placeOf(position, chart, choruses),
      span: spanAt(position, chart, starts, choruses),
    };
  };
  const performedBeats = (index: number) => {
    const { onset, duration } = take.notes[index]!;
    return positionAt(map, onset + duration) - positionAt(map, onset);
  };
  const beatOf = (position: number) => {
    const bar = quartersPerBar(chart.meter);
    const within = position - Math.floor(position / bar + 1e-9) * bar;
    return 1 + (within * chart.meter.unit) / 4;
  };

  if (alignment.method === "rubato") {
    return take.notes.map((note, i) => ({
      ...place(i, positionAt(map, note.onset)),
      beat: null,
      position: null,
      beats: null,
      timing: null,
    }));
  }
  if (alignment.method === "notated") {
    const grid = sourceGrid(take, chart);
    const countIn = grid.pieces[0]!.position - map[0]!.position;
    return take.notes.map((note, i) => {
      const position = clean(positionOfTick(grid, note.tick) - countIn);
      const beats = positionOfTick(grid, note.tick + note.ticks) - positionOfTick(grid, note.tick);
      return {
        ...place(i, position),
        beat: clean(beatOf(position)),
        position,
        beats: clean(beats),
        timing: null,
      };
    });
  }

  const performed = take.notes.map((note) => positionAt(map, note.onset));
  const snapped = snapTake(take, chart, hands, performed, (p) => tempoAt(map, p));
  return take.notes.map((_, i) => {
    const position = clean(snapped[i]!.written);
    return {
      ...place(i, position),
      beat: clean(beatOf(position)),
      position,
      beats: performedBeats(i),
      timing: performed[i]! - snapped[i]!.played,
    };
  });
}

/** Snaps the solo and the comping each as a line of its own, in quarter-note beats. */
function snapTake(
  take: Take,
  chart: Chart,
  hands: readonly NoteHand[],
  performed: readonly number[],
  tempo: (position: number) => number,
): { written: number; played: number }[] {
  const compound = chart.meter.unit >= 8;
  const pulse = compound ? 4 / chart.meter.unit : 1;
  const result = new Array<{ written: number; played: number }>(take.notes.length);
  const lines = [true, false].map((solo) =>
    take.notes
      .map((_, i) => i)
      .filter((i) => hands[i]!.solo === solo)
      .sort((a, b) => performed[a]! - performed[b]!),
  );
  // In compound meters a recorder's or a player's constant lateness is large against an eighth: it is no other place.
  const late = lines.map((line) =>
    compound
      ? constantLateness(performed, pulse)
      : beyondUsual(
          line.map((i) => performed[i]!),
          (i) => 60 / tempo(i),
        ),
  );
  const phases = lines.map((line, l) => line.map((i) => performed[i]! - late[l]!));
  const feels = phases.map(swingFeel);
  // A comping hand plays few off-beats; it is heard with the line's swing where there is a line.
  const feel = lines[0]!.length > 0 ? feels[0]! : feels[1]!;
  lines.forEach((line, l) => {
    const places = snapOnsets(
      phases[l]!.map((phase) => phase / pulse),
      (k) => isOneStroke(take.notes[line[k - 1]!]!, take.notes[line[k]!]!, l === 0),
      (k) => (60 / tempo(performed[line[k]!]!)) * pulse,
      compound ? null : (k) => feel.at(Math.floor(phases[l]![k]!)),
    );
    line.forEach((i, k) => {
      result[i] = { written: places[k]!.written * pulse, played: places[k]!.played * pulse };
    });
  });
  return result;
}

/**
 * Lateness up to this share of a beat is left to the places: soloists are late on the beat more than in running
 * figures (of the notes of half of the open solos so moved, more stand where people put them).
 */
const LATE_IN_PLACE = 0.1;

/** Quarter-note beats by which a line is later or earlier than notes may be on their own places. */
function beyondUsual(phases: readonly number[], beatSeconds: (position: number) => number): number {
  const { beats } = latenessOf(phases, median(phases, beatSeconds) ?? 0);
  return Math.sign(beats) * Math.max(0, Math.abs(beats) - LATE_IN_PLACE);
}

/** True for two notes of one stroke. In a line a key let go as the next one starts is a stroke of its own, however short. */
function isOneStroke(before: Note, note: Note, inLine: boolean): boolean {
  if (note.onset - before.onset >= ONE_STROKE) return false;
  const overlap = before.onset + before.duration - note.onset;
  return !inLine || overlap > Math.min(before.duration, note.duration) / 2;
}

/** Index of the chord that sounds at a chart position; a tag stays on the last chord, a pickup hears the form's end. */
function spanAt(position: number, chart: Chart, starts: readonly number[], choruses: number): number {
  const bars = Math.floor(position / quartersPerBar(chart.meter) + 1e-9);
  if (bars >= choruses * chart.bars.length) return starts.length - 1;
  const within = inForm(position, chart) + 1e-9;
  return Math.max(0, bisectRight(starts, within) - 1);
}

/** Takes the dust of floating point off sums of grid places. */
function clean(value: number): number {
  const rounded = Math.round(value * 960) / 960;
  return Math.abs(rounded - value) < 1e-9 ? rounded : value;
}

/** Direction in which places gather around whole pulses, in quarter-note beats: 0 where they hardly gather. */
function constantLateness(places: readonly number[], pulse: number): number {
  let [x, y] = [0, 0];
  for (const place of places) {
    x += Math.cos((2 * Math.PI * place) / pulse);
    y += Math.sin((2 * Math.PI * place) / pulse);
  }
  return Math.hypot(x, y) < 0.4 * places.length ? 0 : (Math.atan2(y, x) / (2 * Math.PI)) * pulse;
}
