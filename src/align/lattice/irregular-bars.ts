/** Where a take goes on in its form a bar or half a bar sooner or later than its beats say: one was left out or added. */
import { mod } from "../../pitch/index.ts";
import type { Evidence } from "./evidence.ts";
import { EARLY } from "./line-model.ts";

export interface FormSlip {
  /** Beat of the form, counted from the first beat of the first chorus as the take was laid, from which on it differs. */
  readonly beat: number;
  /** Beats that were left out there (positive) or put in (negative). */
  readonly beats: number;
  /** Which part of the take lies beside the form as it was laid. */
  readonly side: "before" | "after";
  /** Nats by which the take fits better so. */
  readonly gain: number;
}

/**
 * Nats that a cut must gain. Of 117 open solos of the fitted half on a click of their own, as they were played, none
 * gains so much alone (the most is 9.2).
 */
const LEAST = 10;
/** At most this many are sought in a take: with more, its place is in doubt altogether. [practice] */
const MOST = 3;

/**
 * Slips of the form under known beats, the clearest first: the take is cut where turning the form under one part of it by
 * a bar or half a bar explains it best, against the best turning of the whole.
 *
 * @param beats seconds at which each beat begins
 * @param firstBeat number of the first, from the first beat of the first chorus
 */
export function formSlips(evidence: Evidence, beats: Float64Array, firstBeat: number): readonly FormSlip[] {
  const { bar } = evidence.form;
  const turns = bar % 2 === 0 ? [bar, -bar, bar / 2, -bar / 2] : [bar, -bar];
  const offsets = new Int32Array(beats.length - 1);
  const slips: FormSlip[] = [];
  while (slips.length < MOST) {
    const found = bestCut(turnedFits(evidence, beats, firstBeat, offsets, turns), turns);
    if (found === null || found.gain < LEAST) break;
    const { cut, turn, side, gain } = found;
    slips.push({ beat: firstBeat + cut, beats: side === "after" ? turn : -turn, side, gain });
    if (side === "after") for (let k = cut; k < offsets.length; k++) offsets[k]! += turn;
    else for (let k = 0; k < cut; k++) offsets[k]! += turn;
  }
  return slips;
}

/** Nats that each beat gains by each turning of the form under it: `[turn * beats + beat]`. */
function turnedFits(
  { strokes, form, weigh }: Evidence,
  beats: Float64Array,
  firstBeat: number,
  offsets: Int32Array,
  turns: readonly number[],
): Float64Array {
  const n = offsets.length;
  const fits = new Float64Array(turns.length * n);
  const states = new Int32Array(turns.length + 1);
  const factors = new Float64Array(turns.length + 1);
  let from = 0;
  for (let k = 0; k < n; k++) {
    const length = beats[k + 1]! - beats[k]!;
    let to = from;
    while (to < strokes.count && strokes.time[to]! < beats[k + 1]! - EARLY * length) to++;
    const at = firstBeat + k + offsets[k]!;
    if (to > from && at >= 0) {
      [0, ...turns].forEach((turn, i) => {
        states[i] = form.lead + mod(at + turn, form.count);
      });
      factors.fill(1);
      weigh(from, to, beats[k]!, length, states, states.length, factors);
      for (let i = 0; i < turns.length; i++) fits[i * n + k] = Math.log(factors[i + 1]! / factors[0]!);
    }
    from = to;
  }
  return fits;
}

interface Cut {
  readonly cut: number;
  readonly turn: number;
  readonly side: FormSlip["side"];
  readonly gain: number;
}

/** The cut and the turning of one side of it that gain most over the best turning of the whole. */
function bestCut(fits: Float64Array, turns: readonly number[]): Cut | null {
  const n = fits.length / turns.length;
  let whole = 0;
  let best: Cut | null = null;
  for (const [i, turn] of turns.entries()) {
    const row = fits.subarray(i * n, (i + 1) * n);
    const all = row.reduce((sum, gain) => sum + gain, 0);
    whole = Math.max(whole, all);
    let before = 0;
    for (let cut = 1; cut < n; cut++) {
      before += row[cut - 1]!;
      const side = before > all - before ? "before" : "after";
      const gain = Math.max(before, all - before);
      if (best === null || gain > best.gain) best = { cut, turn, side, gain };
    }
  }
  return best === null ? null : { ...best, gain: best.gain - whole };
}
