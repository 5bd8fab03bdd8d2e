import { quantileSorted } from "d3-array";
import type { SwingSummary } from "../account.ts";
import type { Chart } from "../chart/index.ts";
import { mod } from "../pitch/index.ts";
import { type LineNote, melodicLine, type PlacedNote } from "../take/index.ts";
import { medianInterval, rounded } from "./spread.ts";

/** One beat of which the swing could be measured. */
export interface SwungBeat {
  /** Beat of the bar in quarter notes, 1 the first. */
  readonly beat: number;
  /** Chorus of the note on the beat. */
  readonly chorus: number;
  /** First part over second part. */
  readonly ratio: number;
  /** Quarter notes a minute in that beat. */
  readonly tempo: number;
  /** Length of the second part, in milliseconds. */
  readonly short: number;
}

/** Fewer measured beats than this give no summary. [practice] */
const FEWEST = 4;

/**
 * Swing ratios (beat-upbeat ratios) of the beats that have a note on the beat and exactly one off it: first part over
 * second part, from the performed onsets of the player's own notes, so that a player who lies behind the beat is not
 * measured as swinging less. Only beats that lead to a note on the next one are measured: at the end of a phrase the
 * off-beat comes late, and with another beat's length the ratio came out a tenth too high (open solos).
 * After Friberg & Sundström 2002 and Corcoran & Frieler 2021. Empty for notation (which prints, but does not play, its swing), in rubato, and in compound meters.
 *
 * @param notes solo notes in time order
 */
export function swungBeats(notes: readonly PlacedNote[], chart: Chart): SwungBeat[] {
  return swungInLine(melodicLine(notes), chart);
}

/** The same for a line that is already told from its notes. */
function swungInLine(steps: readonly LineNote<PlacedNote>[], chart: Chart): SwungBeat[] {
  if (chart.meter.unit > 4) return [];
  const line = steps.filter((step) => step.note.position !== null && step.note.timing !== null);
  const beatsInBar = (chart.meter.beats * 4) / chart.meter.unit;
  const found: SwungBeat[] = [];
  for (let i = 0; i + 1 < line.length; i++) {
    const [on, off, next] = [line[i]!, line[i + 1]!, line[i + 2]];
    const beat = placeOf(on);
    if (!Number.isInteger(beat) || !isSwingOffBeat(placeOf(off) - beat)) continue;
    if (next === undefined || placeOf(next) !== beat + 1) continue;
    const length = next.onset - on.onset;
    const long = off.onset - on.onset;
    if (!(long > 0 && length > long)) continue;
    found.push({
      beat: mod(beat, beatsInBar) + 1,
      chorus: on.note.chorus,
      ratio: long / (length - long),
      tempo: 60 / length,
      short: (length - long) * 1000,
    });
  }
  return found;
}

/**
 * Median swing ratio with its spread and the tempo that it was played at, or null when fewer than four beats can be
 * measured. It is never marked against 2:1.
 */
export function swingOf(notes: readonly PlacedNote[], chart: Chart): SwingSummary | null {
  return summariseSwing(swungBeats(notes, chart));
}

/** What `swingOf` says of the middle ratio and its spread, for a line told from its notes, and no more. */
export function swingSpreadOf(line: readonly LineNote<PlacedNote>[], chart: Chart): SwingSpread | null {
  const beats = swungInLine(line, chart);
  return beats.length < FEWEST ? null : spreadOf(beats);
}

export type SwingSpread = Pick<SwingSummary, "q1" | "median" | "q3">;

function spreadOf(beats: readonly SwungBeat[]): SwingSpread {
  const sorted = inOrder(beats.map((b) => b.ratio));
  const at = (share: number) => rounded(quantileSorted(sorted, share)!, 3);
  return { q1: at(0.25), median: at(0.5), q3: at(0.75) };
}

export function summariseSwing(beats: readonly SwungBeat[]): SwingSummary | null {
  if (beats.length < FEWEST) return null;
  const { median, q1, q3 } = spreadOf(beats);
  const tempos = inOrder(beats.map((b) => b.tempo));
  const shorts = inOrder(beats.map((b) => b.short));
  const [low, high] = medianInterval(beats.map((b) => b.ratio));
  return {
    median,
    interval: { low: rounded(low, 3), high: rounded(high, 3) },
    q1,
    q3,
    beats: beats.length,
    tempo: rounded(quantileSorted(tempos, 0.5)!, 1),
    short: rounded(quantileSorted(shorts, 0.5)!, 1),
  };
}

function inOrder(values: readonly number[]): number[] {
  return [...values].sort((a, b) => a - b);
}

function placeOf(step: LineNote<PlacedNote>): number {
  return step.note.position!;
}

/** The swung off-beat is snapped to a half, or to two thirds where the grid is in triplets. */
function isSwingOffBeat(fraction: number): boolean {
  return Math.abs(fraction - 0.5) < 1e-6 || Math.abs(fraction - 2 / 3) < 1e-6;
}
