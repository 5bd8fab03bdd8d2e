/**
 * What the strokes of both hands say of a beat before any is known: how many keys, how loud, how low, how long, after
 * what rest, how new. Every sign is weighed against the strokes around it, so that a take played louder, faster or in
 * another key has the same signs.
 */
import { mean } from "d3-array";
import { type Note, strokeGroups } from "../../take/index.ts";

export interface FreeStrokes {
  readonly count: number;
  /** Mean onset of each stroke, in seconds. */
  readonly time: Float64Array;
  /** Signs of each stroke: `signs[stroke * SIGNS + sign]`, each roughly between -2.5 and 2.5. */
  readonly signs: Float64Array;
  /** Pitch classes of each stroke, the lowest note's first. */
  readonly classes: readonly (readonly number[])[];
  /** Seconds from one stroke to the next, the middle one. */
  readonly step: number;
}

/** Signs of a stroke: keys, loudness, depth, length, rest after it and before it, new pitch classes, lowest of late. */
export const SIGNS = 8;
/** Strokes on either side that a stroke is weighed against, and those before it that are still in the ear. */
const AROUND = 12;
const RECENT = 6;
/** Scales that bring the signs to about one: a fifth of the loudness, eight semitones. */
const LOUDER = 5;
const DEEPER = 1 / 8;
const MOST = 2.5;

/** @param notes sorted by onset */
export function freeStrokes(notes: readonly Note[]): FreeStrokes {
  const groups = strokeGroups(notes).map((group) =>
    group.map((i) => notes[i]!).sort((a, b) => a.pitch - b.pitch),
  );
  const count = groups.length;
  const time = Float64Array.from(groups, (group) => mean(group, ({ onset }) => onset)!);
  const step = middleOf(Array.from(time.subarray(1), (seconds, k) => seconds - time[k]!));
  const row = {
    keys: groups.map((group) => Math.log(group.length)),
    loud: groups.map((group) => Math.max(...group.map(({ velocity }) => velocity))),
    low: groups.map((group) => group[0]!.pitch),
    long: groups.map((group) => Math.log(Math.max(...group.map(({ duration }) => duration)) + step / 10)),
  };
  const signs = new Float64Array(count * SIGNS);
  for (let e = 0; e < count; e++) {
    const [from, to] = [Math.max(0, e - AROUND), Math.min(count - 1, e + AROUND)];
    const around = (values: readonly number[]) => mean(values.slice(from, to + 1))!;
    const usual = to > from ? (time[to]! - time[from]!) / (to - from) : step;
    const loud = around(row.loud);
    const after = e + 1 < count ? time[e + 1]! - time[e]! : 2 * usual;
    const before = e > 0 ? time[e]! - time[e - 1]! : 2 * usual;
    const recent = groups.slice(Math.max(0, e - RECENT), e);
    const heard = new Set(recent.flatMap((group) => group.map(({ pitch }) => pitch % 12)));
    const fresh = groups[e]!.filter(({ pitch }) => !heard.has(pitch % 12)).length / groups[e]!.length;
    const lowest = recent.every((group) => group[0]!.pitch > row.low[e]!) ? 1 : 0;
    [
      row.keys[e]! - around(row.keys),
      LOUDER * (row.loud[e]! / loud - 1),
      DEEPER * (around(row.low) - row.low[e]!),
      row.long[e]! - around(row.long),
      Math.log(after / usual),
      Math.log(before / usual),
      fresh,
      lowest,
    ].forEach((sign, k) => {
      signs[e * SIGNS + k] = Math.max(-MOST, Math.min(MOST, sign));
    });
  }
  return { count, time, signs, classes: groups.map((group) => group.map(({ pitch }) => pitch % 12)), step };
}

function middleOf(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return Math.max(0.02, sorted[sorted.length >> 1] ?? 0.25);
}
