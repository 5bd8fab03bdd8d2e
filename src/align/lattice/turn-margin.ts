/** How much better a line fits the chart where it was laid than with the form turned under it by whole bars. */
import { mod } from "../../pitch/index.ts";
import type { Evidence } from "./evidence.ts";
import { EARLY } from "./line-model.ts";

/**
 * @param beats seconds at which each beat begins
 * @param firstBeat number of the first, from the first beat of the first chorus
 * @returns nats to the best of the other turnings; null where the form is one bar long or nothing lies in it
 */
export function turnMargin(evidence: Evidence, beats: Float64Array, firstBeat: number): number | null {
  const { strokes, form, weigh } = evidence;
  const turns = Math.floor(form.count / form.bar);
  if (turns < 2) return null;
  const sums = new Float64Array(turns);
  const states = new Int32Array(turns);
  const factors = new Float64Array(turns);
  let from = 0;
  for (let k = 0; k + 1 < beats.length; k++) {
    const length = beats[k + 1]! - beats[k]!;
    let to = from;
    while (to < strokes.count && strokes.time[to]! < beats[k + 1]! - EARLY * length) to++;
    if (to > from && firstBeat + k >= 0) {
      for (let r = 0; r < turns; r++) states[r] = form.lead + mod(firstBeat + k + r * form.bar, form.count);
      factors.fill(1);
      weigh(from, to, beats[k]!, length, states, turns, factors);
      for (let r = 0; r < turns; r++) sums[r]! += Math.log(factors[r]!);
    }
    from = to;
  }
  return sums[0]! - Math.max(...sums.subarray(1));
}
