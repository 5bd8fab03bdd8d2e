/**
 * The best row of beats for a take that both hands play freely, at one usual length of a beat: a hidden semi-Markov
 * model (Ferguson 1980; Rabiner 1989) whose steps are beats from moment to moment, each with the beat of the form that
 * it is. A beat's length goes with those before it, and now and then anywhere. Found by dynamic programming over the
 * moments; readings that fall far behind are not followed on.
 */
import type { FreeForm } from "./free-form.ts";
import { FREE, type FreeTables, PARTS } from "./free-model.ts";
import type { FreeMoments } from "./free-moments.ts";

export interface FreeBeats {
  /** Nats of the whole take against no beat. */
  readonly score: number;
  /** Seconds of each beat; beat of the form of the first. */
  readonly beats: Float64Array;
  readonly firstBeat: number;
}

/** Nats by which a reading may be behind the best of its time, and the seconds that are one time. */
const BEHIND = 16;
/** Nats by which a tempo may be behind another; wrong ones lead by less than half of that in the first bars. */
const GIVEN_UP = 80;
const ONE_TIME = 0.8;
/** Classes of lengths in an e-fold: readings at one beat whose lengths are of one class are one. */
const CLASSES = 14;
/** Lengths (log) that are followed about the usual one, and those from which takes may begin. */
const REACH = 1.2;
const START_REACH = 0.8;
const START_STEP = 0.07;
/** Seconds of the shortest and longest beat. */
const SHORTEST = 0.115;
const LONGEST = 5.5;
/** Seconds after the first stroke in which the first beat may be. */
const FIRST_WITHIN = 2.5;
/** Steps of the table of changes of length (log). */
const FINE = 200;

/**
 * @param usual seconds of a usual beat
 * @param rival nats of the best reading at each moment at any tempo so far, which is brought up to date
 * @returns null where nothing fits, or the rival is so far ahead that the whole take need not be read
 */
export function freeBeats(
  moments: FreeMoments,
  form: FreeForm,
  tables: FreeTables,
  usual: number,
  rival: Float64Array,
): FreeBeats | null {
  const pass = new FreePass(moments, form, tables, usual);
  pass.begin();
  for (let i = 0; i < moments.count; i++) if (pass.goOnFrom(i) < rival[i]! - GIVEN_UP) return null;
  pass.lead(rival);
  return pass.best();
}

class FreePass {
  private readonly moments: FreeMoments;
  private readonly form: FreeForm;
  private readonly tables: FreeTables;
  private readonly middle: number;
  private readonly changes: Float64Array;
  /** Readings: the beat of the form that begins, its moment, the length (log) up to it, nats, and the one before. */
  private beatOf = new Int32Array(1 << 15);
  private momentOf = new Int32Array(1 << 15);
  private lengthOf = new Float64Array(1 << 15);
  private scoreOf = new Float64Array(1 << 15);
  private before = new Int32Array(1 << 15);
  private used = 0;
  /** The reading at each (beat, class of length) of the moments that are within reach, one more than its number. */
  private readonly slots: Int32Array[];
  private readonly keys: number;
  private readonly classes: number;
  /** Readings at each moment within reach, and nats of the best. */
  private readonly at: number[][];
  private readonly top: Float64Array;
  /** Nats of the best reading about the moment that was taken last. */
  private near = Number.NEGATIVE_INFINITY;
  private last = -1;
  private lastScore = Number.NEGATIVE_INFINITY;

  constructor(moments: FreeMoments, form: FreeForm, tables: FreeTables, usual: number) {
    this.moments = moments;
    this.form = form;
    this.tables = tables;
    this.middle = Math.log(usual);
    this.changes = changesOf(tables.spread);
    this.classes = Math.ceil(2 * REACH * CLASSES) + 1;
    this.keys = form.count * this.classes;
    const longest = Math.min(LONGEST, usual * Math.exp(REACH));
    let ring = 1;
    for (let i = 0, j = 0; i < moments.count; i++) {
      while (j < moments.count && moments.time[j]! - moments.time[i]! <= longest) j++;
      ring = Math.max(ring, j - i + 1);
    }
    this.slots = Array.from({ length: ring }, () => new Int32Array(this.keys));
    this.at = Array.from({ length: ring }, () => []);
    this.top = new Float64Array(moments.count).fill(Number.NEGATIVE_INFINITY);
  }

  /** Offers every place, moment and length with which the take may begin. */
  begin(): void {
    const { moments, form, middle } = this;
    const { time, first } = moments;
    const most = Math.min(moments.count, this.slots.length);
    for (let i = 0; i < most && time[i]! < time[0]! + FIRST_WITHIN; i++) {
      for (let k = 0; k < form.count; k++) {
        const led = k >= form.count - form.bar;
        if (k >= form.bar && !led) continue;
        const price = k === 0 ? 0 : led ? FREE.pickup : FREE.inside;
        for (let length = middle - START_REACH; length < middle + START_REACH; length += START_STEP) {
          const away = (length - middle) / FREE.width;
          const score = this.worth(i, k) - price - FREE.skipped * first[i]! - (away * away) / 2;
          this.offer(i, k, length, score, -1);
        }
      }
    }
  }

  /** Nats of a beat of the form that begins at a moment. */
  private worth(i: number, k: number): number {
    const { here, onBar, offBar } = this.moments;
    return here[i]! + (k % this.form.bar === 0 ? onBar : offBar)[i]!;
  }

  private offer(j: number, k: number, length: number, score: number, from: number): void {
    const top = this.top[j]!;
    if (score < top - BEHIND) return;
    const kind = Math.round((length - this.middle + REACH) * CLASSES);
    if (kind < 0 || kind >= this.classes) return;
    if (score > top) this.top[j] = score;
    const slots = this.slots[j % this.slots.length]!;
    const key = k * this.classes + kind;
    let e = slots[key]! - 1;
    if (e >= 0) {
      if (this.scoreOf[e]! >= score) return;
    } else {
      if (this.used === this.beatOf.length) this.grow();
      e = this.used++;
      slots[key] = e + 1;
      this.at[j % this.at.length]!.push(e);
      this.beatOf[e] = k;
      this.momentOf[e] = j;
    }
    this.lengthOf[e] = length;
    this.scoreOf[e] = score;
    this.before[e] = from;
  }

  private grow(): void {
    const longer = <T extends Int32Array | Float64Array>(row: T): T => {
      const next = new (row.constructor as new (length: number) => T)(2 * row.length);
      next.set(row);
      return next;
    };
    this.beatOf = longer(this.beatOf);
    this.momentOf = longer(this.momentOf);
    this.lengthOf = longer(this.lengthOf);
    this.scoreOf = longer(this.scoreOf);
    this.before = longer(this.before);
  }

  /** Readings at a moment that are worth following, which leave it for good. */
  private take(i: number): number[] {
    const { time } = this.moments;
    const row = this.at[i % this.at.length]!;
    if (row.length === 0) return row;
    let floor = this.top[i]!;
    for (let b = i - 1; b >= 0 && time[i]! - time[b]! < ONE_TIME; b--) floor = Math.max(floor, this.top[b]!);
    this.near = floor;
    const live = row.filter((e) => this.scoreOf[e]! > floor - BEHIND);
    const slots = this.slots[i % this.slots.length]!;
    for (const e of row) {
      const kind = Math.round((this.lengthOf[e]! - this.middle + REACH) * CLASSES);
      slots[this.beatOf[e]! * this.classes + kind] = 0;
    }
    row.length = 0;
    return live;
  }

  /**
   * Takes every next beat from a moment.
   *
   * @returns nats of the best reading about that time
   */
  goOnFrom(i: number): number {
    const { moments, lengthOf } = this;
    const { time, first, strokes } = moments;
    const live = this.take(i);
    if (live.length === 0) return Number.POSITIVE_INFINITY;
    if (first[i]! >= strokes.count) {
      this.end(live);
      return Number.POSITIVE_INFINITY;
    }
    let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
    for (const e of live) {
      low = Math.min(low, lengthOf[e]!);
      high = Math.max(high, lengthOf[e]!);
    }
    const shortest = Math.max(SHORTEST, Math.exp(low + FREE.shorter));
    const longest = Math.min(LONGEST, Math.exp(Math.min(high + FREE.longer, this.middle + REACH)));
    for (let j = i + 1; j < moments.count; j++) {
      const seconds = time[j]! - time[i]!;
      if (seconds > longest) break;
      if (seconds >= shortest) this.step(i, j, seconds, live);
    }
    return this.near;
  }

  /** Nats of the best reading at each moment and shortly before, where that is more than is known of others. */
  lead(rival: Float64Array): void {
    let from = 0;
    for (let i = 0; i < this.top.length; i++) {
      while (this.moments.time[i]! - this.moments.time[from]! >= ONE_TIME) from++;
      let near = Number.NEGATIVE_INFINITY;
      for (let b = from; b <= i; b++) near = Math.max(near, this.top[b]!);
      if (near > rival[i]!) rival[i] = near;
    }
  }

  private step(i: number, j: number, seconds: number, live: readonly number[]): void {
    const { moments, form, lengthOf, beatOf, scoreOf, changes } = this;
    const { width, chords, here, onBar, offBar } = moments;
    const length = Math.log(seconds);
    const away = (length - this.middle) / FREE.width;
    const common = this.rhythm(i, j, seconds) + here[j]! - FREE.pull * 0.5 * away * away;
    const [from, to] = [moments.first[i]! * width, moments.first[j]! * width];
    const floor = this.top[j]! - BEHIND;
    for (const e of live) {
      const change = length - lengthOf[e]!;
      if (change < FREE.shorter || change > FREE.longer) continue;
      const k = beatOf[e]!;
      const next = k + 1 === form.count ? 0 : k + 1;
      const c = form.chordAt[k]!;
      const chord = c < 0 ? 0 : chords[to + c]! - chords[from + c]!;
      const score =
        scoreOf[e]! +
        common +
        changes[Math.round((change - FREE.shorter) * FINE)]! +
        chord +
        (next % form.bar === 0 ? onBar : offBar)[j]!;
      if (score < floor) continue;
      this.offer(j, next, FREE.keeps * lengthOf[e]! + (1 - FREE.keeps) * length, score, e);
    }
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

  private end(live: readonly number[]): void {
    const { count, bar } = this.form;
    for (const e of live) {
      const left = (count - this.beatOf[e]!) % count;
      const score = this.scoreOf[e]! - (left <= bar ? 0 : FREE.broken);
      if (score > this.lastScore) [this.last, this.lastScore] = [e, score];
    }
  }

  best(): FreeBeats | null {
    if (this.last < 0) return null;
    const beats: number[] = [];
    let e = this.last;
    let firstBeat = 0;
    for (; e >= 0; e = this.before[e]!) {
      beats.push(this.moments.time[this.momentOf[e]!]!);
      firstBeat = this.beatOf[e]!;
    }
    return { score: this.lastScore, beats: Float64Array.from(beats.reverse()), firstBeat };
  }
}

/** Nats of a change of length: around those before by a normal spread, now and then far. */
function changesOf(spread: number): Float64Array {
  const steps = Math.ceil((FREE.longer - FREE.shorter) * FINE) + 1;
  return Float64Array.from({ length: steps }, (_, n) => {
    const change = FREE.shorter + n / FINE;
    const usual = (1 - FREE.strays) * Math.exp(-((change / spread) ** 2) / 2);
    return Math.log(usual + FREE.strays * Math.exp(-Math.abs(change) / FREE.stray));
  });
}
