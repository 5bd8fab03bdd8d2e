/** What a beat from one moment to another is worth to a reading of free playing, in nats. */
import { mod } from "../../pitch/index.ts";
import type { FreeForm } from "./free-form.ts";
import { FREE, type FreeTables, PARTS } from "./free-model.ts";
import type { FreeMoments } from "./free-moments.ts";

/** A moment that is known to be a place of the form: seconds, and beats from the form's first bar line. */
export interface FreePin {
  readonly seconds: number;
  readonly beat: number;
}

/** Lengths (log) that are followed about the usual one. */
export const REACH = 1.2;
/** Seconds of the shortest and longest beat. */
const SHORTEST = 0.115;
const LONGEST = 5.5;
/** Steps of the table of changes of length (log). */
const FINE = 200;
/** Beats by which a reading may pass a pin, and nats that passing it farther away costs: more than any chords give back. */
const PAST_PIN = 0.5;
const BESIDE_PIN = 40;

export class FreeSteps {
  readonly moments: FreeMoments;
  readonly form: FreeForm;
  /** Log seconds of a usual beat. */
  readonly middle: number;
  /** Seconds of the longest beat. */
  readonly longest: number;
  private readonly tables: FreeTables;
  private readonly changes: Float64Array;
  private readonly pins: readonly FreePin[];
  /** Pins up to each moment. */
  private readonly passed: Int32Array;
  /** What each beat of the form is worth between the two moments that were asked for last. */
  private readonly kept: Float64Array;
  private readonly keptAt: Int32Array;
  private keptFrom = -1;
  private keptTo = -1;
  private keep = 0;

  /** @param pins rising */
  constructor(
    moments: FreeMoments,
    form: FreeForm,
    tables: FreeTables,
    usual: number,
    pins: readonly FreePin[],
  ) {
    this.moments = moments;
    this.form = form;
    this.tables = tables;
    this.middle = Math.log(usual);
    this.longest = Math.min(LONGEST, usual * Math.exp(REACH));
    this.changes = changesOf(tables.spread);
    this.pins = pins;
    this.kept = new Float64Array(form.count);
    this.keptAt = new Int32Array(form.count);
    this.passed = new Int32Array(moments.count);
    let passed = 0;
    for (let i = 0; i < moments.count; i++) {
      while (passed < pins.length && pins[passed]!.seconds <= moments.time[i]!) passed++;
      this.passed[i] = passed;
    }
  }

  /** Nats of a beat of the form that begins at a moment. */
  worth(i: number, k: number): number {
    const { here, onBar, offBar } = this.moments;
    return here[i]! + (k % this.form.bar === 0 ? onBar : offBar)[i]!;
  }

  next(k: number): number {
    return k + 1 === this.form.count ? 0 : k + 1;
  }

  /** Seconds of the shortest and longest beat that may follow lengths between two (log). */
  within(low: number, high: number): readonly [number, number] {
    return [
      Math.max(SHORTEST, Math.exp(low + FREE.shorter)),
      Math.min(this.longest, Math.exp(high + FREE.longer)),
    ];
  }

  /**
   * As far as it is the same for every reading: where strokes fall in the beat, that another begins at its end, and how
   * far it is from the usual length.
   *
   * @param length log seconds
   */
  together(i: number, j: number, length: number): number {
    const { here } = this.moments;
    const away = (length - this.middle) / FREE.width;
    return this.rhythm(i, j, Math.exp(length)) + here[j]! - FREE.pull * 0.5 * away * away;
  }

  /**
   * What a reading adds to it: how its length changes, what its chord makes of the strokes, whether a bar begins, and
   * whether it passes pins where they are. Minus infinity where no beat of that length may follow.
   *
   * @param k beat of the form that lies between the moments
   * @param before length (log) of the beats before
   */
  alone(k: number, before: number, i: number, j: number, length: number): number {
    const change = length - before;
    if (change < FREE.shorter || change > FREE.longer) return Number.NEGATIVE_INFINITY;
    return this.changes[Math.round((change - FREE.shorter) * FINE)]! + this.placed(k, i, j);
  }

  /** As far as it is the same for every length: kept, since many readings of two moments differ in nothing else. */
  private placed(k: number, i: number, j: number): number {
    if (i !== this.keptFrom || j !== this.keptTo) {
      this.keptFrom = i;
      this.keptTo = j;
      this.keep++;
    }
    if (this.keptAt[k] === this.keep) return this.kept[k]!;
    const { chords, first, width, onBar, offBar } = this.moments;
    const c = this.form.chordAt[k]!;
    const chord = c < 0 ? 0 : chords[first[j]! * width + c]! - chords[first[i]! * width + c]!;
    const pinned = this.passed[j]! > this.passed[i]! ? this.besidePins(k, i, j) : 0;
    const nats = chord + (this.next(k) % this.form.bar === 0 ? onBar : offBar)[j]! - pinned;
    this.keptAt[k] = this.keep;
    this.kept[k] = nats;
    return nats;
  }

  private besidePins(k: number, i: number, j: number): number {
    const { time } = this.moments;
    const { count } = this.form;
    let price = 0;
    for (let p = this.passed[i]!; p < this.passed[j]!; p++) {
      const { seconds, beat } = this.pins[p]!;
      const at = k + (seconds - time[i]!) / (time[j]! - time[i]!);
      const beside = mod(at - beat + count / 2, count) - count / 2;
      if (Math.abs(beside) > PAST_PIN) price += BESIDE_PIN;
    }
    return price;
  }

  /** Nats of where strokes fall between two beats. */
  private rhythm(i: number, j: number, seconds: number): number {
    const { strokes, inside, first, time } = this.moments;
    let sum = 0;
    for (let e = inside[i]!; e < first[j]!; e++) {
      const part = Math.floor(((strokes.time[e]! - time[i]!) / seconds) * PARTS);
      sum += this.tables.parts[Math.max(0, Math.min(PARTS - 1, part))]!;
    }
    return FREE.parts * sum;
  }
}

/**
 * Nats of a change of length (log density): most beats change little, and some by any amount, as people stop and hurry on.
 * Of the true beats of 21 performances Student's distribution tells .18 nats a beat more than a normal one with strays.
 */
function changesOf(spread: number): Float64Array {
  const steps = Math.ceil((FREE.longer - FREE.shorter) * FINE) + 1;
  const odds = Float64Array.from({ length: steps }, (_, n) => {
    const change = FREE.shorter + n / FINE;
    return (1 + (change / spread) ** 2 / FREE.freedom) ** (-(FREE.freedom + 1) / 2);
  });
  const sum = odds.reduce((all, one) => all + one, 0) / FINE;
  return odds.map((one) => Math.log(one / sum));
}
