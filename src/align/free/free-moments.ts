/** Moments at which a beat may begin, with what the strokes say of each: all strokes, and places in longer gaps. */
import { logistic } from "../../statistics/logistic.ts";
import type { FreeForm } from "./free-form.ts";
import { roleIn } from "./free-form.ts";
import { FREE, type FreeTables } from "./free-model.ts";
import { type FreeStrokes, SIGNS } from "./free-strokes.ts";

export interface FreeMoments {
  readonly count: number;
  /** Seconds, rising. */
  readonly time: Float64Array;
  /** First stroke at the moment or after it, and the first one after a stroke that falls with it. */
  readonly first: Int32Array;
  readonly inside: Int32Array;
  /** Nats for a beat here, against none; for its being a bar's first, and for its being another. */
  readonly here: Float64Array;
  readonly onBar: Float64Array;
  readonly offBar: Float64Array;
  /** Running sums of what strokes say of each chord: `chords[stroke * width + chord]`. */
  readonly chords: Float64Array;
  readonly width: number;
  readonly strokes: FreeStrokes;
}

/** Gaps from which on beats are sought inside, and how close: in the take's own steps. */
const GAP = 1.2;
const CLOSE = 0.5;
const MOST_IN_GAP = 12;
/** Places after the last stroke. */
const AFTER = 40;

export function freeMoments(strokes: FreeStrokes, form: FreeForm, tables: FreeTables): FreeMoments {
  const { time, stroke } = placesOf(strokes);
  const count = time.length;
  const first = new Int32Array(count);
  const inside = new Int32Array(count);
  const here = new Float64Array(count);
  const onBar = new Float64Array(count);
  const offBar = new Float64Array(count);
  const usualBar = logistic(tables.barOdds);
  let next = 0;
  for (let i = 0; i < count; i++) {
    const e = stroke[i]!;
    while (next < strokes.count && strokes.time[next]! < time[i]!) next++;
    first[i] = e < 0 ? next : e;
    inside[i] = e < 0 ? next : e + 1;
    if (e < 0) {
      here[i] = tables.silent + FREE.between;
      continue;
    }
    here[i] = tables.struck + FREE.beat * (oddsOf(tables.beat, strokes, e) - tables.beatOdds);
    const bar = logistic(oddsOf(tables.bar, strokes, e));
    onBar[i] = FREE.bar * Math.log(bar / usualBar);
    offBar[i] = FREE.bar * Math.log((1 - bar) / (1 - usualBar));
  }
  const width = Math.max(1, form.chords.length);
  return {
    count,
    time: Float64Array.from(time),
    first,
    inside,
    here,
    onBar,
    offBar,
    chords: chordSums(strokes, form, tables, width),
    width,
    strokes,
  };
}

/** Seconds of all places, with the stroke that stands there; -1 for none. */
function placesOf({ time: onsets, count, step }: FreeStrokes): { time: number[]; stroke: number[] } {
  const time: number[] = [];
  const stroke: number[] = [];
  for (let e = 0; e < count; e++) {
    time.push(onsets[e]!);
    stroke.push(e);
    const gap = e + 1 < count ? onsets[e + 1]! - onsets[e]! : 0;
    if (gap <= GAP * step) continue;
    const parts = Math.max(2, Math.min(MOST_IN_GAP, Math.floor(gap / (CLOSE * step))));
    for (let x = 1; x < parts; x++) {
      time.push(onsets[e]! + (gap * x) / parts);
      stroke.push(-1);
    }
  }
  for (let x = 1; x <= AFTER; x++) {
    time.push(onsets[count - 1]! + x * CLOSE * step);
    stroke.push(-1);
  }
  return { time, stroke };
}

function oddsOf(rule: readonly number[], { signs }: FreeStrokes, e: number): number {
  let sum = rule[0]!;
  for (let k = 0; k < SIGNS; k++) sum += rule[k + 1]! * signs[e * SIGNS + k]!;
  return sum;
}

function chordSums(
  { count, classes }: FreeStrokes,
  { chords }: FreeForm,
  tables: FreeTables,
  width: number,
): Float64Array {
  const sums = new Float64Array((count + 1) * width);
  const table = chords.map((chord) => Array.from({ length: 12 }, (_, pc) => roleIn(chord, pc)));
  for (let e = 0; e < count; e++) {
    const keys = classes[e]!;
    const weight = FREE.chord * keys.length ** FREE.together;
    for (let c = 0; c < width; c++) {
      const roles = table[c];
      let sum = 0;
      if (roles !== undefined) {
        sum += tables.lowRoles[roles[keys[0]!]!]!;
        for (let i = 1; i < keys.length; i++) sum += tables.roles[roles[keys[i]!]!]!;
      }
      sums[(e + 1) * width + c] = sums[e * width + c]! + weight * sum;
    }
  }
  return sums;
}
