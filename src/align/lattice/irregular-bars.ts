/** Where a take goes on in its form a bar or half a bar sooner or later than its beats say: one was left out or added. */
import { mod } from "../../pitch/index.ts";
import type { Evidence } from "./evidence.ts";
import type { FormBeats } from "./form-beats.ts";
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
 * Nats that a cut must gain. Of the 117 open solos of the fitted half, each on a click of its own and as it was played,
 * the most that one gains is 8.1 alone (28.6 in one whose annotated chart itself is two bars off from there on) and 6.2
 * with a hand that plays the chart.
 */
const LEAST = { alone: 9, comped: 7 } as const;

/**
 * The same on beats that were followed in the notes, where only a hand that plays the chart is heard surely enough. Of 40
 * solos of the fitted half with such a hand, on their players' own beats, the one that gains as much by two bars is
 * unsure of its bars altogether; with two bars cut out 15 are over .8 sure of bars that are wrong from there on, and 11 of
 * these gain it.
 */
const LEAST_FOLLOWED = { alone: Number.POSITIVE_INFINITY, comped: 12 } as const;

/** What is sought where. */
export interface SlipsSought {
  /** Beats by which the form is turned, either way. */
  readonly sizes: readonly number[];
  /** Nats that a cut must gain, of a line alone and with a hand that plays along. */
  readonly least: { readonly alone: number; readonly comped: number };
  /** Nats by which the form is less likely to begin beside the bars that a file states; 0 where none states them. */
  readonly besideBars: number;
}

/** On a click, whose beats nobody has fitted to the notes: also one beat, since who loses one is heard beside the click. */
export function onClick({ bar }: FormBeats, besideBars: number): SlipsSought {
  return { sizes: [...new Set([bar, ...halfOf(bar), 1, 2 * bar])], least: LEAST, besideBars };
}

/** On beats that were followed and hurry or drag nowhere: what is longer than a bar is not laid as tempo. */
export function onFollowed({ bar }: FormBeats): SlipsSought {
  return { sizes: [2 * bar], least: LEAST_FOLLOWED, besideBars: 0 };
}

/** Where followed beats are squeezed or stretched by so much. */
export function inSqueeze({ bar }: FormBeats): SlipsSought {
  return { sizes: [bar, ...halfOf(bar)], least: LEAST, besideBars: 0 };
}

function halfOf(bar: number): number[] {
  return bar % 2 === 0 ? [bar / 2] : [];
}

/** At most this many are sought in a take: with more, its place is in doubt altogether. [practice] */
const MOST = 3;

/**
 * Slips of the form under its beats, the clearest first: the take is cut where turning the form under one part of it
 * explains it best, against the best turning of the whole.
 *
 * @param beats seconds at which each beat begins
 * @param firstBeat number of the first, from the first beat of the first chorus
 */
export function formSlips(
  evidence: Evidence,
  beats: Float64Array,
  firstBeat: number,
  sought: SlipsSought,
): readonly FormSlip[] {
  const { bar } = evidence.form;
  const turns = sought.sizes.flatMap((size) => [size, -size]);
  const costs = turns.map((turn) => (turn % bar === 0 ? 0 : sought.besideBars));
  const comped = evidence.strokes.line.subarray(0, evidence.strokes.count).includes(0);
  const least = comped ? sought.least.comped : sought.least.alone;
  const offsets = new Int32Array(beats.length - 1);
  const slips: FormSlip[] = [];
  while (slips.length < MOST) {
    const found = bestCut(turnedFits(evidence, beats, firstBeat, offsets, turns), turns, costs);
    if (found === null || found.gain < least) break;
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

/**
 * The cut and the turning of one side of it that gain most over the best turning of the whole.
 *
 * @param costs nats that each turning costs where the take's beginning is turned
 */
function bestCut(fits: Float64Array, turns: readonly number[], costs: readonly number[]): Cut | null {
  const n = fits.length / turns.length;
  let whole = 0;
  let best: Cut | null = null;
  for (const [i, turn] of turns.entries()) {
    const row = fits.subarray(i * n, (i + 1) * n);
    const all = row.reduce((sum, gain) => sum + gain, 0);
    const cost = costs[i]!;
    whole = Math.max(whole, all - cost);
    let before = 0;
    for (let cut = 1; cut < n; cut++) {
      before += row[cut - 1]!;
      const [turned, kept] = [before - cost, all - before];
      const side = turned > kept ? "before" : "after";
      const gain = Math.max(turned, kept);
      if (best === null || gain > best.gain) best = { cut, turn, side, gain };
    }
  }
  return best === null ? null : { ...best, gain: best.gain - whole };
}
