/**
 * How likely each beat of the form begins at each moment: sums over all readings that were followed, forward and
 * backward (Baum 1972; Rabiner 1989).
 */
import {
  type FreePassed,
  firstWithin,
  LENGTH_CLASSES,
  lengthClass,
  mixed,
  momentsInReach,
  reachOf,
} from "./free-beats.ts";
import { FREE } from "./free-model.ts";

/** A beat of the form, a moment (its number), and how likely the one begins at the other, 0 to 1. */
export interface LikelyBeat {
  readonly beat: number;
  readonly moment: number;
  readonly share: number;
}

/** Shares that are not told. */
const LEAST = 1e-3;
/** Ways to a reading grow by a fifth and more a beat, so that sums over an hour would leave the range of numbers. */
const LARGE = 1e100;

/**
 * @param large from here on sums are told in a larger unit
 * @returns in the order of the moments
 */
export function likelyBeats(passed: FreePassed, large = LARGE): LikelyBeat[] {
  const { steps, states, followed, ends } = passed;
  const { count } = steps.moments;
  const reach = momentsInReach(steps);
  const upTo = new Sums(passed);
  const from = new Sums(passed);
  for (const row of followed) for (const e of row ?? []) if (states.before[e]! < 0) upTo.of[e] = 1;
  const ways = new Ways(passed);
  for (let i = 0; i < count; i++) {
    upTo.keepSmall(i, i, count, large);
    ways.each(i, (e, f, share) => {
      upTo.of[f]! += upTo.of[e]! * share;
    });
  }
  const best = ends.reduce((most, { score }) => Math.max(most, score), Number.NEGATIVE_INFINITY);
  let whole = 0;
  for (const { state, score } of ends) {
    from.of[state] = Math.exp(score - best);
    whole +=
      upTo.of[state]! * from.of[state]! * Math.exp(upTo.unit[states.moment[state]!]! - upTo.unit[count - 1]!);
  }
  for (let i = count - 1; i >= 0; i--) {
    ways.each(i, (e, f, share) => {
      from.of[e]! += from.of[f]! * share;
    });
    from.keepSmall(i, 0, Math.min(count, i + reach), large);
  }
  const beats: LikelyBeat[] = [];
  for (let i = 0; i < count; i++) {
    const shares = new Map<number, number>();
    const unit = Math.exp(upTo.unit[i]! + from.unit[i]! - upTo.unit[count - 1]!) / whole;
    for (const e of followed[i] ?? []) {
      const k = states.beat[e]!;
      shares.set(k, (shares.get(k) ?? 0) + upTo.of[e]! * from.of[e]! * unit);
    }
    for (const [beat, share] of shares) if (share > LEAST) beats.push({ beat, moment: i, share });
  }
  return beats;
}

/**
 * Sums for each reading, against the best way to it. There are ever more ways the longer the take: that no sum leaves
 * the range of numbers, each moment has its own unit.
 */
class Sums {
  readonly of: Float64Array;
  /** Logarithm of the unit of each moment. */
  readonly unit: Float64Array;
  private readonly followed: FreePassed["followed"];

  constructor({ states, followed, steps }: FreePassed) {
    this.of = new Float64Array(states.used);
    this.unit = new Float64Array(steps.moments.count);
    this.followed = followed;
  }

  /** Where the sums of a moment are large, they and those of a range of moments, which go on from them, get a larger unit. */
  keepSmall(i: number, start: number, end: number, large: number): void {
    let most = 0;
    for (const e of this.followed[i] ?? []) most = Math.max(most, this.of[e]!);
    if (most < large) return;
    for (let j = start; j < end; j++) {
      for (const e of this.followed[j] ?? []) this.of[e]! /= most;
      this.unit[j]! += Math.log(most);
    }
  }
}

/** Nats by which a way to a reading may be worse than the best one to it and still count. */
const COUNTS = 14;

/** Steps from reading to reading, as they were taken. */
class Ways {
  private readonly passed: FreePassed;
  /** The reading of each (beat, class of length), one more than its number, at the moments that were asked for last. */
  private readonly slots: { at: number; readonly keys: Int32Array }[];

  constructor(passed: FreePassed) {
    this.passed = passed;
    const { form } = passed.steps;
    this.slots = Array.from({ length: momentsInReach(passed.steps) }, () => ({
      at: -1,
      keys: new Int32Array(form.count * LENGTH_CLASSES),
    }));
  }

  private keyOf(k: number, length: number): number {
    return k * LENGTH_CLASSES + lengthClass(length, this.passed.steps.middle);
  }

  private readingsAt(j: number): Int32Array {
    const { states, followed } = this.passed;
    const slot = this.slots[j % this.slots.length]!;
    if (slot.at === j) return slot.keys;
    const mark = (moment: number, value: (e: number) => number) => {
      for (const e of followed[moment] ?? []) {
        slot.keys[this.keyOf(states.beat[e]!, states.length[e]!)] = value(e);
      }
    };
    if (slot.at >= 0) mark(slot.at, () => 0);
    mark(j, (e) => e + 1);
    slot.at = j;
    return slot.keys;
  }

  /** @param visit told a reading at the moment, one that follows it, and what share this way has of the best one to it */
  each(i: number, visit: (e: number, f: number, share: number) => void): void {
    const { steps, states, followed } = this.passed;
    const { time, count, first, strokes } = steps.moments;
    const live = followed[i] ?? [];
    if (live.length === 0 || first[i]! >= strokes.count) return;
    const [shortest, longest] = reachOf(live, states, steps);
    for (let j = i + 1; j < count; j++) {
      const seconds = time[j]! - time[i]!;
      if (seconds > longest) return;
      if (seconds < shortest || (followed[j] ?? []).length === 0) continue;
      const there = this.readingsAt(j);
      const length = Math.log(seconds);
      const common = steps.together(i, j, length);
      for (let n = firstWithin(live, states, length - FREE.longer); n < live.length; n++) {
        const e = live[n]!;
        const before = states.length[e]!;
        if (length - before < FREE.shorter) break;
        const k = states.beat[e]!;
        const score = states.score[e]! + common + steps.alone(k, before, i, j, length);
        if (score === Number.NEGATIVE_INFINITY) continue;
        const after = mixed(before, length);
        const kind = lengthClass(after, steps.middle);
        if (kind < 0 || kind >= LENGTH_CLASSES) continue;
        const f = there[steps.next(k) * LENGTH_CLASSES + kind]! - 1;
        if (f < 0) continue;
        const behind = score - states.score[f]!;
        if (behind > -COUNTS) visit(e, f, Math.exp(Math.min(0, behind)));
      }
    }
  }
}
