/** The row of beats of which most are expected to be met, by how likely each beat is at each moment. */
import { bisectLeft } from "d3-array";
import type { FreePassed } from "./free-beats.ts";
import type { LikelyBeat } from "./free-posterior.ts";

export interface LikelyRow {
  /** Seconds of each beat; beat of the form of the first. */
  readonly beats: Float64Array;
  readonly firstBeat: number;
  /** How likely each is within `MET`, 0 to 1. */
  readonly shares: Float64Array;
}

/** Seconds within which a beat is met (as in the beat-tracking literature: Dixon 2007). */
const MET = 0.07;
/** Share from which on a beat is better there than not: what a beat too many takes from the F-measure. */
const WORTH_IT = 0.2;

/**
 * Each beat of the row is the form's next, as likely as may be: of readings that differ in a few beats their common
 * ones are kept, whichever of the readings is the best.
 *
 * @param likely in the order of the moments
 * @returns null where nothing is likely
 */
export function likelyRow({ steps }: FreePassed, likely: readonly LikelyBeat[]): LikelyRow | null {
  const { time } = steps.moments;
  const at = (n: number) => time[likely[n]!.moment]!;
  const rows = new Map<number, number[]>();
  likely.forEach(({ beat }, n) => {
    const row = rows.get(beat);
    if (row === undefined) rows.set(beat, [n]);
    else row.push(n);
  });
  const met = metShares(likely, at, rows);
  const score = new Float64Array(likely.length);
  const before = new Int32Array(likely.length).fill(-1);
  let best = -1;
  for (let n = 0; n < likely.length; n++) {
    const { beat } = likely[n]!;
    const earlier = rows.get(beat === 0 ? steps.form.count - 1 : beat - 1) ?? [];
    let most = 0;
    // From the nearest on: what lies farther back than any beat is long is never reached.
    for (let r = bisectLeft(earlier, n) - 1; r >= 0; r--) {
      const p = earlier[r]!;
      const seconds = at(n) - at(p);
      if (seconds > steps.longest) break;
      if (seconds > 0 && score[p]! > most) [most, before[n]] = [score[p]!, p];
    }
    score[n] = most + met[n]! - WORTH_IT;
    if (best < 0 || score[n]! > score[best]!) best = n;
  }
  if (best < 0) return null;
  const row: number[] = [];
  for (let n = best; n >= 0; n = before[n]!) row.unshift(n);
  return {
    beats: Float64Array.from(row, at),
    firstBeat: likely[row[0]!]!.beat,
    shares: Float64Array.from(row, (n) => met[n]!),
  };
}

function metShares(
  likely: readonly LikelyBeat[],
  at: (n: number) => number,
  rows: ReadonlyMap<number, readonly number[]>,
): Float64Array {
  const met = new Float64Array(likely.length);
  for (const row of rows.values()) {
    let from = 0;
    row.forEach((n) => {
      while (at(row[from]!) < at(n) - MET) from++;
      let sum = 0;
      for (let x = from; x < row.length && at(row[x]!) <= at(n) + MET; x++) sum += likely[row[x]!]!.share;
      met[n] = Math.min(1, sum);
    });
  }
  return met;
}
