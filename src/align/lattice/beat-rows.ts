/** What the strokes of one beat say of every beat of the form at once; the same few strokes are asked for again and again. */
import type { FormBeats } from "./form-beats.ts";
import type { Strokes } from "./line-features.ts";
import { comeRow, heldRow, PERIOD, SECOND_HALF, withinRow } from "./line-model.ts";

/** Share of beats in which a line has little to do with the chart's chord (see `settleTurn`, where it is one of bars). */
export const ELSEWHERE = 0.1;

/** Rows that are kept at a time, and strokes of a beat up to which they are: a take has few beats of more. */
const KEPT = 4096;
const MOST_KEPT = 15;

/** Shares of kinds of notes on each beat of a period, to the power that they count with (see `LineTables`). */
export interface MetreTables {
  readonly come: Float64Array;
  readonly held: Float64Array;
  readonly within: Float64Array;
}

export class BeatRows {
  private readonly strokes: Strokes;
  private readonly form: FormBeats;
  /** What the pitches of a stroke say of each state, in the first or second half of a beat. */
  private readonly rowOf: (stroke: number, half: number) => Float32Array;
  private readonly tables: MetreTables;
  private readonly kept = new Map<number, Float64Array>();
  private readonly loose: Float64Array;
  private readonly line: Float64Array;

  constructor(
    strokes: Strokes,
    form: FormBeats,
    rowOf: (stroke: number, half: number) => Float32Array,
    tables: MetreTables,
  ) {
    this.strokes = strokes;
    this.form = form;
    this.rowOf = rowOf;
    this.tables = tables;
    this.loose = new Float64Array(form.states);
    this.line = new Float64Array(form.states);
  }

  /** Factors over all states by the pitches of strokes `from` to `to`; good until it is asked again. */
  pitches(from: number, to: number, start: number, seconds: number): Float64Array {
    const { time } = this.strokes;
    const half = SECOND_HALF;
    let split = from;
    while (split < to && (time[split]! - start) / seconds < half) split++;
    if (to - from > MOST_KEPT) return this.fill(this.loose, from, split, to);
    const key = (from * (MOST_KEPT + 1) + (to - from)) * (MOST_KEPT + 1) + (split - from);
    let row = this.kept.get(key);
    if (row === undefined) {
      if (this.kept.size === KEPT) this.kept.clear();
      row = this.fill(new Float64Array(this.form.states), from, split, to);
      this.kept.set(key, row);
    }
    return row;
  }

  /** @param split the first stroke in the second half of the beat */
  private fill(into: Float64Array, from: number, split: number, to: number): Float64Array {
    const { line } = this;
    const n = into.length;
    into.fill(1);
    line.fill(1);
    for (let s = from; s < to; s++) {
      const row = this.rowOf(s, s < split ? 0 : 1);
      const factors = this.strokes.line[s] === 1 ? line : into;
      for (let p = 0; p < n; p++) factors[p]! *= row[p]!;
    }
    for (let p = 0; p < n; p++) into[p]! *= (1 - ELSEWHERE) * line[p]! + ELSEWHERE;
    return into;
  }

  /** Fills in a factor for each beat of the period, by intervals, long notes and phrases; false where they say nothing. */
  metre(from: number, to: number, start: number, seconds: number, into: Float64Array): boolean {
    if (this.form.bar !== 4) return false;
    const { strokes } = this;
    const { come, held, within } = this.tables;
    // Looked up once: a name of another module is looked up anew by every turn of a loop.
    const period = PERIOD;
    let lines = 0;
    for (let s = from; s < to; s++) {
      if (strokes.line[s] === 0) continue;
      const place = (strokes.time[s]! - start) / seconds;
      if (lines++ === 0) into.fill(1);
      const came = comeRow(strokes.come[s]!, place) * 4;
      const sounds = heldRow(strokes.held[s]! / seconds, place) * 4;
      const row = withinRow(strokes.begun[s]!, strokes.left[s]!, place) * period;
      for (let beat = 0; beat < 4; beat++) {
        const factor = come[came + beat]! * held[sounds + beat]!;
        for (let b = beat; b < period; b += 4) into[b]! *= factor * within[row + b]!;
      }
    }
    return lines > 0;
  }
}
