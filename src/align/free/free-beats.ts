/**
 * The best row of beats for a take that both hands play freely, at one usual length of a beat: a hidden semi-Markov
 * model (Ferguson 1980; Rabiner 1989) whose steps are beats from moment to moment, each with the beat of the form that
 * it is. A beat's length goes with those before it, and now and then anywhere. Found by dynamic programming over the
 * moments; readings that fall far behind are not followed on.
 */
import { FREE } from "./free-model.ts";
import { FreeStates } from "./free-states.ts";
import { type FreeSteps, REACH } from "./free-steps.ts";

export interface FreeBeats {
  /** Nats of the whole take against no beat. */
  readonly score: number;
  /** Seconds of each beat; beat of the form of the first. */
  readonly beats: Float64Array;
  readonly firstBeat: number;
}

/** Everything that was followed on the way to the best row. */
export interface FreePassed extends FreeBeats {
  readonly steps: FreeSteps;
  readonly states: FreeStates;
  /** Readings that were followed on from each moment. */
  readonly followed: readonly (readonly number[])[];
  /** Readings with which the take may end, and nats of the whole with each. */
  readonly ends: readonly { readonly state: number; readonly score: number }[];
}

/** Nats by which a reading may be behind the best of its time, and the seconds that are one time. */
const BEHIND = 16;
/** Nats by which a tempo may be behind another; wrong ones lead by less than half of that in the first bars. */
const GIVEN_UP = 80;
const ONE_TIME = 0.8;
/** Classes of lengths in an e-fold: readings at one beat whose lengths are of one class are one. */
const CLASSES = 14;
/** Lengths (log) about the usual one from which takes may begin. */
const START_REACH = 0.8;
const START_STEP = 0.07;
/** Seconds after the first stroke in which the first beat may be. */
const FIRST_WITHIN = 2.5;

/**
 * @param rival nats of the best reading at each moment at any tempo so far, which is brought up to date
 * @returns null where nothing fits, or the rival is so far ahead that the whole take need not be read
 */
export function freeBeats(steps: FreeSteps, rival: Float64Array): FreePassed | null {
  const pass = new FreePass(steps);
  pass.begin();
  for (let i = 0; i < steps.moments.count; i++) {
    if (pass.goOnFrom(i) < rival[i]! - GIVEN_UP) return null;
  }
  pass.lead(rival);
  return pass.best();
}

/** Classes of lengths, and the class of one (log seconds); readings of one beat and class at a moment are one. */
export const LENGTH_CLASSES = Math.ceil(2 * REACH * CLASSES) + 1;
export const lengthClass = (length: number, middle: number) =>
  Math.round((length - middle + REACH) * CLASSES);

/** Most moments that lie within one longest beat, both ends counted: as many have to be kept at a time. */
export function momentsInReach({ moments: { time, count }, longest }: FreeSteps): number {
  let most = 1;
  for (let i = 0, j = 0; i < count; i++) {
    while (j < count && time[j]! - time[i]! <= longest) j++;
    most = Math.max(most, j - i + 1);
  }
  return most;
}

class FreePass {
  private readonly steps: FreeSteps;
  private readonly states = new FreeStates();
  /** The reading at each (beat, class of length) of the moments that are within reach, one more than its number. */
  private readonly slots: Int32Array[];
  /** Readings at each moment within reach, and nats of the best. */
  private readonly at: number[][];
  private readonly top: Float64Array;
  private readonly followed: (readonly number[])[] = [];
  private readonly ends: { state: number; score: number }[] = [];
  /** Nats of the best reading about the moment that was taken last. */
  private near = Number.NEGATIVE_INFINITY;

  constructor(steps: FreeSteps) {
    this.steps = steps;
    const { count } = steps.moments;
    const ring = momentsInReach(steps);
    this.slots = Array.from({ length: ring }, () => new Int32Array(steps.form.count * LENGTH_CLASSES));
    this.at = Array.from({ length: ring }, () => []);
    this.top = new Float64Array(count).fill(Number.NEGATIVE_INFINITY);
  }

  /** Offers every place, moment and length with which the take may begin. */
  begin(): void {
    const { moments, form, middle } = this.steps;
    const { time, first } = moments;
    const most = Math.min(moments.count, this.slots.length);
    for (let i = 0; i < most && time[i]! < time[0]! + FIRST_WITHIN; i++) {
      for (let k = 0; k < form.count; k++) {
        const led = k >= form.count - form.bar;
        if (k >= form.bar && !led) continue;
        const price = k === 0 ? 0 : led ? FREE.pickup : FREE.inside;
        for (let length = middle - START_REACH; length < middle + START_REACH; length += START_STEP) {
          const away = (length - middle) / FREE.width;
          const score = this.steps.worth(i, k) - price - FREE.skipped * first[i]! - (away * away) / 2;
          this.offer(i, k, length, score, -1);
        }
      }
    }
  }

  private offer(j: number, k: number, length: number, score: number, from: number): void {
    const top = this.top[j]!;
    if (score < top - BEHIND) return;
    const kind = lengthClass(length, this.steps.middle);
    if (kind < 0 || kind >= LENGTH_CLASSES) return;
    if (score > top) this.top[j] = score;
    const { states } = this;
    const slots = this.slots[j % this.slots.length]!;
    const key = k * LENGTH_CLASSES + kind;
    let e = slots[key]! - 1;
    if (e >= 0) {
      if (states.score[e]! >= score) return;
    } else {
      e = states.add();
      slots[key] = e + 1;
      this.at[j % this.at.length]!.push(e);
      states.beat[e] = k;
      states.moment[e] = j;
    }
    states.length[e] = length;
    states.score[e] = score;
    states.before[e] = from;
  }

  /** Readings at a moment that are worth following, which leave it for good. */
  private take(i: number): readonly number[] {
    const { time } = this.steps.moments;
    const { states } = this;
    const row = this.at[i % this.at.length]!;
    if (row.length === 0) return row;
    let floor = this.top[i]!;
    for (let b = i - 1; b >= 0 && time[i]! - time[b]! < ONE_TIME; b--) floor = Math.max(floor, this.top[b]!);
    this.near = floor;
    // By their lengths, so that those which may go on with a beat lie side by side.
    const live = row.filter((e) => states.score[e]! > floor - BEHIND);
    live.sort((e, f) => states.length[e]! - states.length[f]!);
    const slots = this.slots[i % this.slots.length]!;
    for (const e of row) {
      slots[states.beat[e]! * LENGTH_CLASSES + lengthClass(states.length[e]!, this.steps.middle)] = 0;
    }
    row.length = 0;
    this.followed[i] = live;
    return live;
  }

  /**
   * Takes every next beat from a moment.
   *
   * @returns nats of the best reading about that time
   */
  goOnFrom(i: number): number {
    const live = this.take(i);
    if (live.length === 0) return Number.POSITIVE_INFINITY;
    const { time, first, strokes, count } = this.steps.moments;
    if (first[i]! >= strokes.count) {
      this.end(live);
      return Number.POSITIVE_INFINITY;
    }
    const [shortest, longest] = reachOf(live, this.states, this.steps);
    for (let j = i + 1; j < count; j++) {
      const seconds = time[j]! - time[i]!;
      if (seconds > longest) break;
      if (seconds >= shortest) this.step(i, j, Math.log(seconds), live);
    }
    return this.near;
  }

  /** Nats of the best reading at each moment and shortly before, where that is more than is known of others. */
  lead(rival: Float64Array): void {
    const { time } = this.steps.moments;
    let from = 0;
    for (let i = 0; i < this.top.length; i++) {
      while (time[i]! - time[from]! >= ONE_TIME) from++;
      let near = Number.NEGATIVE_INFINITY;
      for (let b = from; b <= i; b++) near = Math.max(near, this.top[b]!);
      if (near > rival[i]!) rival[i] = near;
    }
  }

  private step(i: number, j: number, length: number, live: readonly number[]): void {
    const { steps, states } = this;
    const common = steps.together(i, j, length);
    const floor = this.top[j]! - BEHIND;
    for (let n = firstWithin(live, states, length - FREE.longer); n < live.length; n++) {
      const e = live[n]!;
      const before = states.length[e]!;
      if (length - before < FREE.shorter) return;
      const k = states.beat[e]!;
      const score = states.score[e]! + common + steps.alone(k, before, i, j, length);
      if (score >= floor) this.offer(j, steps.next(k), mixed(before, length), score, e);
    }
  }

  private end(live: readonly number[]): void {
    const { count, bar } = this.steps.form;
    for (const e of live) {
      const left = (count - this.states.beat[e]!) % count;
      this.ends.push({ state: e, score: this.states.score[e]! - (left <= bar ? 0 : FREE.broken) });
    }
  }

  best(): FreePassed | null {
    const { states, steps, followed, ends } = this;
    if (ends.length === 0) return null;
    const last = ends.reduce((best, one) => (one.score > best.score ? one : best));
    const beats: number[] = [];
    let firstBeat = 0;
    for (let e = last.state; e >= 0; e = states.before[e]!) {
      beats.push(steps.moments.time[states.moment[e]!]!);
      firstBeat = states.beat[e]!;
    }
    return {
      score: last.score,
      beats: Float64Array.from(beats.reverse()),
      firstBeat,
      steps,
      states,
      followed,
      ends,
    };
  }
}

/** Place of the first reading, by length, that is at least as long (log). */
export function firstWithin(live: readonly number[], { length }: FreeStates, least: number): number {
  let [low, high] = [0, live.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (length[live[middle]!]! < least) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** What is known of the length (log) after one more beat. */
export const mixed = (before: number, length: number) => FREE.keeps * before + (1 - FREE.keeps) * length;

/** Seconds of the shortest and longest beat that some of these readings, which stand by their lengths, may go on with. */
export const reachOf = (
  live: readonly number[],
  { length }: FreeStates,
  steps: FreeSteps,
): readonly [number, number] => steps.within(length[live[0]!]!, length[live.at(-1)!]!);
