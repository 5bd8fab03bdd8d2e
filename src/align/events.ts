/** The take as a row of strokes: notes struck together are one event, with what their pitches say of the chart. */
import { chorusBeats, quartersPerBar } from "../chart/index.ts";
import type { Chart } from "../chart/types.ts";
import { type Note, strokeGroups } from "../take/index.ts";
import { type ChartStretch, chartStretches, pitchEvidence, VOICES } from "./chart-evidence.ts";
import { beatCells, CELLS } from "./metre.ts";
import type { NoteHand } from "./types.ts";

const [BASS_AT_CHANGE, BASS, COMPING, ON_BEAT, OFF_BEAT] = VOICES.map((_, v) => v) as [
  number,
  number,
  number,
  number,
  number,
];

/**
 * How surely the lowest comping note is a bass note, 0 to 1: a note alone in the octave below middle C, the lowest
 * of a chord only when it lies deeper than chords without a root are played [practice].
 */
function bassShare(pitch: number, alone: boolean): number {
  const [middle, width] = alone ? [54, 1.5] : [47.5, 1];
  return 1 / (1 + Math.exp((pitch - middle) / width));
}

export interface Events {
  readonly count: number;
  /** Seconds: that of the comping hand where it strikes, which keeps the time, else of the solo. */
  readonly time: Float64Array;
  /** 1 where the comping hand strikes. */
  readonly comping: Uint8Array;
  /** 1 where the solo strikes. */
  readonly solo: Uint8Array;
  /** 1 where the comping hand strikes a bass note. */
  readonly bass: Uint8Array;
  /** Share of what the comping hand strikes that it did not strike just before; 0 where it does not strike. */
  readonly novel: Float64Array;
  readonly stretches: readonly ChartStretch[];
  /** Nats for the event inside each stretch of the form: `inside[event * stretches + stretch]`. */
  readonly inside: Float64Array;
  /** The same for an event on a beat, where lines play chord tones. */
  readonly onBeat: Float64Array;
  /** The same for an event on the first beat of the stretch, where a bass note is expected to be the root. */
  readonly onChange: Float64Array;
  /** Cells in the beat that a foot would tap. */
  readonly beat: number;
  /** Cells before the form in which its end is heard; before these an introduction may be played over anything. */
  readonly pickup: number;
  /** Number of stretches, and the cell on which each begins. */
  readonly width: number;
  readonly starts: Int32Array;
  /** Index of the stretch for each cell of the form. */
  readonly stretchAt: Uint16Array;
}

/** Notes of one stroke tell less together than one by one; each further note counts by this much. */
const TEMPER = 0.6;

/** Groups a take's notes into events. Notes must be sorted by onset. */
export function takeEvents(notes: readonly Note[], hands: readonly NoteHand[], chart: Chart): Events {
  const groups = strokeGroups(notes);
  const stretches = chartStretches(chart);
  const table = pitchEvidence(chart, stretches);
  const n = groups.length;
  const width = stretches.length;
  const time = new Float64Array(n);
  const comping = new Uint8Array(n);
  const solo = new Uint8Array(n);
  const bass = new Uint8Array(n);
  const struck = new Uint16Array(n);
  const inside = new Float64Array(n * width);
  const onBeat = new Float64Array(n * width);
  const onChange = new Float64Array(n * width);
  groups.forEach((group, e) => {
    const accompany = group.filter((i) => !hands[i]!.solo);
    const line = group.filter((i) => hands[i]!.solo);
    comping[e] = accompany.length > 0 ? 1 : 0;
    solo[e] = line.length > 0 ? 1 : 0;
    const timing = accompany.length > 0 ? accompany : line;
    time[e] = timing.reduce((sum, i) => sum + notes[i]!.onset, 0) / timing.length;
    for (const i of accompany) struck[e]! |= 1 << (notes[i]!.pitch % 12);
    const lowest = accompany.reduce((low, i) => Math.min(low, notes[i]!.pitch), 128);
    bass[e] = lowest < 128 && bassShare(lowest, accompany.length === 1) > 0.5 ? 1 : 0;
    const weight = group.length ** (TEMPER - 1);
    for (const i of group) {
      const pitch = notes[i]!.pitch;
      const row = (voice: number, s: number) => table[(voice * width + s) * 12 + (pitch % 12)]!;
      const off = hands[i]!.solo ? OFF_BEAT : COMPING;
      const on = hands[i]!.solo ? ON_BEAT : COMPING;
      const low = hands[i]!.solo || pitch !== lowest ? 0 : bassShare(pitch, accompany.length === 1);
      for (let s = 0; s < width; s++) {
        const bassHere = low * (row(BASS, s) - row(COMPING, s));
        inside[e * width + s]! += weight * (row(off, s) + bassHere);
        onBeat[e * width + s]! += weight * (row(on, s) + bassHere);
        onChange[e * width + s]! += weight * (row(on, s) + low * (row(BASS_AT_CHANGE, s) - row(COMPING, s)));
      }
    }
  });
  return {
    count: n,
    time,
    comping,
    solo,
    bass,
    novel: novelty(time, struck),
    stretches,
    width,
    starts: Int32Array.from(stretches, (stretch) => Math.round(stretch.start * CELLS)),
    inside,
    onBeat,
    beat: beatCells(chart),
    pickup: 2 * Math.round(quartersPerBar(chart.meter) * CELLS),
    onChange,
    stretchAt: stretchCells(stretches, chorusBeats(chart)),
  };
}

/** Strokes of the comping hand within this time (seconds) are one rolled chord. */
const ROLL = 0.15;

/**
 * Share of each stroke's pitch classes that the stroke before did not have; a rolled chord counts where it begins.
 * Taken down where the hand hardly ever strikes the same again, as a walking bass does: new keys then say nothing.
 */
function novelty(time: Float64Array, struck: Uint16Array): Float64Array {
  const novel = new Float64Array(time.length);
  let before = 0;
  let begin = -1;
  let classes = 0;
  let strokes = 0;
  let same = 0;
  for (let e = 0; e <= time.length; e++) {
    if (e < time.length && struck[e] === 0) continue;
    if (e < time.length && begin >= 0 && time[e]! - time[begin]! < ROLL) {
      classes |= struck[e]!;
      continue;
    }
    if (begin >= 0) {
      novel[begin] = bits(classes & ~before) / bits(classes);
      before = classes;
      strokes++;
      if (novel[begin]! < 0.34) same++;
    }
    begin = e;
    classes = struck[e] ?? 0;
  }
  const telling = Math.min(1, same / (0.35 * Math.max(1, strokes)));
  return novel.map((share) => share * telling);
}

function bits(mask: number): number {
  let count = 0;
  for (let rest = mask; rest > 0; rest &= rest - 1) count++;
  return count;
}

function stretchCells(stretches: readonly ChartStretch[], form: number): Uint16Array {
  const cells = new Uint16Array(Math.round(form * CELLS));
  stretches.forEach((stretch, s) => {
    cells.fill(s, Math.round(stretch.start * CELLS), Math.round((stretch.start + stretch.beats) * CELLS));
  });
  return cells;
}

/** A chord struck early costs this much against one on its place (nats) [practice: pushed chords are usual]. */
const PUSHED = 1.2;

/**
 * Nats that the pitches of an event give for a position in cells; positions outside the form are taken round it.
 * A chord may be struck up to an eighth before its place.
 */
export function harmonyAt(events: Events, event: number, cell: number): number {
  if (cell < -events.pickup) return Math.max(0, formHarmony(events, event, cell)) - INTRO;
  return formHarmony(events, event, cell);
}

/** Nats that an event of an introduction costs for being free to be anything. */
const INTRO = 0.35;

function formHarmony(events: Events, event: number, cell: number): number {
  const form = events.stretchAt.length;
  let at = cell % form;
  if (at < 0) at += form;
  const stretch = events.stretchAt[at]!;
  const row = event * events.width;
  if (at - events.starts[stretch]! < 2) return events.onChange[row + stretch]!;
  const here = (at % events.beat === 0 ? events.onBeat : events.inside)[row + stretch]!;
  const next = stretch + 1 < events.width ? stretch + 1 : 0;
  const until = (next === 0 ? form : events.starts[next]!) - at;
  if (until > CELLS / 2) return here;
  return Math.max(here, events.onChange[row + next]! - PUSHED);
}
