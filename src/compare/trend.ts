import { median } from "d3-array";
import type { Trend } from "./comparison-schema.ts";

/** Null for fewer than three known values; nulls are left out but keep their place in the row. */
export function trendOf(values: readonly (number | null)[]): Trend | null {
  const known = values.flatMap((value, place) => (value === null ? [] : [{ place, value }]));
  if (known.length < 3) return null;
  const slopes: number[] = [];
  for (let i = 0; i < known.length; i++) {
    for (let j = i + 1; j < known.length; j++) {
      slopes.push((known[j]!.value - known[i]!.value) / (known[j]!.place - known[i]!.place));
    }
  }
  const tau = kendall(known.map(({ value }) => value));
  const p =
    known.length <= 7
      ? exactP(
          known.map(({ value }) => value),
          tau,
        )
      : null;
  return { slope: median(slopes)!, tau, p, words: wordsOf(tau, p, known.length) };
}

/** Concordant less discordant pairs over all pairs (tau a). */
function kendall(values: readonly number[]): number {
  let balance = 0;
  for (let i = 0; i < values.length; i++) {
    for (let j = i + 1; j < values.length; j++) balance += Math.sign(values[j]! - values[i]!);
  }
  return (2 * balance) / (values.length * (values.length - 1));
}

function exactP(values: readonly number[], tau: number): number {
  let extreme = 0;
  let all = 0;
  const row = [...values];
  const visit = (k: number) => {
    if (k === row.length) {
      all++;
      if (Math.abs(kendall(row)) >= Math.abs(tau) - 1e-9) extreme++;
      return;
    }
    for (let i = k; i < row.length; i++) {
      [row[k], row[i]] = [row[i]!, row[k]!];
      visit(k + 1);
      [row[k], row[i]] = [row[i]!, row[k]!];
    }
  };
  visit(0);
  return extreme / all;
}

/** Three or four values can all rise by chance, so that is said as what it is: a rise at every step, not a proof. */
function wordsOf(tau: number, p: number | null, count: number): Trend["words"] {
  if (tau === 1) return "rises at every step";
  if (tau === -1) return "falls at every step";
  const clear = p === null ? Math.abs(tau) >= 0.5 : p <= 0.1;
  if (count < 4 || !clear) return "no clear trend";
  return tau > 0 ? "rises" : "falls";
}
