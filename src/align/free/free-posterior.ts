/**
 * How likely each beat of the form begins at each moment: sums over all readings that were followed, forward and
 * backward (Baum 1972; Rabiner 1989).
 */
import {
  type FreePassed,
  LENGTH_CLASSES,
  lengthClass,
  mixed,
  momentsInReach,
  reachOf,
} from "./free-beats.ts";

/** A beat of the form, a moment (its number), and how likely the one begins at the other, 0 to 1. */
export interface LikelyBeat {
  readonly beat: number;
  readonly moment: number;
  readonly share: number;
}

/** Shares that are not told. */
const LEAST = 1e-3;

/** In the order of the moments. */
export function likelyBeats(passed: FreePassed): LikelyBeat[] {
  const { steps, states, followed, ends } = passed;
  const { count } = steps.moments;
  // Sums are told against the best way to a reading, so that none leaves the range of numbers.
  const upTo = new Float64Array(states.used);
  const from = new Float64Array(states.used);
  const best = ends.reduce((most, { score }) => Math.max(most, score), Number.NEGATIVE_INFINITY);
  for (const row of followed) for (const e of row ?? []) if (states.before[e]! < 0) upTo[e] = 1;
  const ways = new Ways(passed);
  for (let i = 0; i < count; i++) {
    ways.each(i, (e, f, share) => {
      upTo[f]! += upTo[e]! * share;
    });
  }
  let whole = 0;
  for (const { state, score } of ends) {
    from[state] = Math.exp(score - best);
    whole += upTo[state]! * from[state]!;
  }
  for (let i = count - 1; i >= 0; i--) {
    ways.each(i, (e, f, share) => {
      from[e]! += from[f]! * share;
    });
  }
  const beats: LikelyBeat[] = [];
  for (let i = 0; i < count; i++) {
    const shares = new Map<number, number>();
    for (const e of followed[i] ?? []) {
      const k = states.beat[e]!;
      shares.set(k, (shares.get(k) ?? 0) + (upTo[e]! * from[e]!) / whole);
    }
    for (const [beat, share] of shares) if (share > LEAST) beats.push({ beat, moment: i, share });
  }
  return beats;
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
      for (const e of live) {
        const [k, before] = [states.beat[e]!, states.length[e]!];
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
