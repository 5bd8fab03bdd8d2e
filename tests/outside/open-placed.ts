/** Notes of the open solos where people placed them, on their own or on any other chart. */
import type { Chart, ChordSpan } from "../../src/chart/index.ts";
import type { PlacedNote } from "../../src/take/index.ts";
import { beatClock, type OpenSolo } from "./open-solos.ts";

/** A note played this much before a beat, in beats, belongs to it: players are early as well as late. [practice] */
const GRACE = 0.12;

/** Chart positions of a solo's notes, in quarter-note beats from the first annotated bar's line. */
export function truePositions(solo: OpenSolo, chart: Chart): number[] {
  const beatAt = beatClock(solo.beats);
  const quarters = 4 / chart.meter.unit;
  return solo.notes.map((note) => {
    const clock = beatAt(note.onset) + GRACE;
    const index = Math.max(0, Math.min(solo.beats.length - 1, Math.floor(clock)));
    const beat = solo.beats[index]!;
    return ((beat.bar - 1) * chart.meter.beats + (beat.beat - 1) + (clock - index)) * quarters;
  });
}

/** The solo's notes as placed notes under the spans of a chart that goes round and round. */
export function placedByTruth(
  solo: OpenSolo,
  positions: readonly number[],
  chart: Chart,
  spans: readonly ChordSpan[],
): PlacedNote[] {
  const bar = (chart.meter.beats * 4) / chart.meter.unit;
  const whole = bar * chart.bars.length;
  return solo.notes.map((note, i) => {
    const position = positions[i]!;
    const at = ((position % whole) + whole) % whole;
    return {
      id: `n${i + 1}`,
      pitch: note.pitch,
      onset: note.onset,
      duration: note.duration,
      position,
      bar: Math.floor(at / bar) + 1,
      span: Math.max(
        0,
        spans.findLastIndex(({ start }) => start <= at),
      ),
    } as PlacedNote;
  });
}

/** Ids of the last notes of the annotated phrases. */
export function lastOfPhrases(solo: OpenSolo): ReadonlySet<string> {
  return new Set(
    solo.notes.flatMap((note, i) => (solo.notes[i + 1]?.phrase === note.phrase ? [] : [`n${i + 1}`])),
  );
}
