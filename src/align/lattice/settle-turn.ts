/** Where in the form beats that were found lie: all places of the first of them are weighed against each other. */
import type { Evidence } from "./evidence.ts";
import { RHYTHM_FOR_TEMPO } from "./lattice.ts";
import type { LatticeStart } from "./lattice-types.ts";
import { EARLY } from "./line-model.ts";
import { logSum } from "./log-sum.ts";

/**
 * Share of bars in which a line has little to do with the chart's chords: a bar that is played outside, or that another
 * chart has otherwise, is not to outweigh all others. Between .2 and .45 the fitted half's places are found as well; at 0
 * two takes in a hundred more are laid beside their bars.
 */
export const ELSEWHERE = 0.3;

export interface Settled {
  /** Number of the first beat, from the first of the first chorus; before it in a lead. */
  readonly firstBeat: number;
  /** Share of all places that have a stroke in the beat of the form in which this one has it. */
  readonly sure: Float64Array;
  /** Log evidence of the take under these beats, as lattices give it (bars that are played over something else not seen). */
  readonly evidence: number;
}

/**
 * @param beats seconds at which each beat begins, the first stroke in the first of them, and the end of the last
 * @param begin log share of each state for the first beat, and `end` of that after the last
 */
export function settleTurn(
  evidence: Evidence,
  beats: Float64Array,
  { begin, end }: Pick<LatticeStart, "begin" | "end">,
): Settled {
  const { form, strokes } = evidence;
  const { states: size, lead, count } = form;
  const n = beats.length - 1;
  const endOf = strokesUntil(evidence, beats);
  const { sums, plain } = sumsOfBars(evidence, beats, endOf);
  const stateAt = (p: number, k: number) => (p + k < size ? p + k : lead + ((p + k - lead) % count));
  for (let p = 0; p < size; p++) {
    const expected = begin[p]! + end[stateAt(p, n)]!;
    sums[p]! += expected;
    plain[p]! += expected;
  }
  let best = 0;
  for (let p = 1; p < size; p++) if (sums[p]! > sums[best]!) best = p;
  const shares = sums.map((sum) => Math.exp(sum - sums[best]!));
  const all = shares.reduce((a, b) => a + b, 0);
  const sure = new Float64Array(strokes.count);
  for (let k = 0; k < n; k++) {
    const here = stateAt(best, k);
    let sum = 0;
    // Of those in the lead and in the form, one each is in the same place.
    for (let p = 0; p < size; p++) if (shares[p]! > 0 && stateAt(p, k) === here) sum += shares[p]!;
    sure.fill(sum / all, k === 0 ? 0 : endOf[k - 1]!, endOf[k]!);
  }
  return { firstBeat: best - lead, sure, evidence: logSum(plain) + evidenceOfRhythm(evidence, beats, endOf) };
}

function evidenceOfRhythm({ rhythm }: Evidence, beats: Float64Array, endOf: Int32Array): number {
  let sum = 0;
  endOf.forEach((to, k) => {
    sum += rhythm(k === 0 ? 0 : endOf[k - 1]!, to, beats[k]!, beats[k + 1]! - beats[k]!);
  });
  return RHYTHM_FOR_TEMPO * sum;
}

/** The stroke after the last of each beat. */
function strokesUntil({ strokes }: Evidence, beats: Float64Array): Int32Array {
  const n = beats.length - 1;
  const result = new Int32Array(n);
  let s = 0;
  for (let k = 0; k < n; k++) {
    const next = beats[k + 1]! - EARLY * (beats[k + 1]! - beats[k]!);
    while (s < strokes.count && (k + 1 === n || strokes.time[s]! < next)) s++;
    result[k] = s;
  }
  return result;
}

/**
 * What the strokes say of each state of the first beat, bar by bar of the form as it then lies, and what they say if no
 * bar is played over something else.
 */
function sumsOfBars(
  evidence: Evidence,
  beats: Float64Array,
  endOf: Int32Array,
): { sums: Float64Array; plain: Float64Array } {
  const { states: size, lead, bar } = evidence.form;
  const n = endOf.length;
  const sums = new Float64Array(size);
  const plain = new Float64Array(size);
  const inBar = new Float64Array(size).fill(1);
  const states = Int32Array.from({ length: size }, (_, p) => p);
  for (let k = 0; k < n; k++) {
    const from = k === 0 ? 0 : endOf[k - 1]!;
    if (endOf[k]! > from) {
      evidence.weigh(from, endOf[k]!, beats[k]!, beats[k + 1]! - beats[k]!, states, size, inBar);
    }
    for (let p = 0; p < size; p++) {
      const next = states[p]! + 1 === size ? lead : states[p]! + 1;
      states[p] = next;
      if (next % bar !== lead % bar && k + 1 < n) continue;
      if (inBar[p] === 1) continue;
      sums[p]! += Math.log((1 - ELSEWHERE) * inBar[p]! + ELSEWHERE);
      plain[p]! += Math.log(inBar[p]!);
      inBar[p] = 1;
    }
  }
  return { sums, plain };
}
