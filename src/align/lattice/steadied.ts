/**
 * Beats without the squeeze that a dropped bar leaves in them: where no click is known, a bar that was left out or put in
 * is laid as a passage that hurries or drags, since the form itself goes on beat by beat.
 */
import { median } from "d3-array";
import type { Evidence } from "./evidence.ts";
import type { Reading } from "./lay-line.ts";
import { EARLY } from "./line-model.ts";
import { refineBeats } from "./refine-beats.ts";

/** Beats on each side of a passage by which its own tempo is known. */
const AROUND = 32;
/**
 * Beats that a passage may be long: a grid that gives a sixth of each beat takes four beats in in 24 (see grids.ts), and a
 * squeeze that is spread over twice as many is as deep as the unrest of a beat. Of 60 takes of the fitted half with a bar
 * more or less 19 are named with 24 to 96, none wrongly; with 12 two are named wrongly.
 */
const LONGEST = 48;
/**
 * Beats by which what a passage is too short or too long may miss half a bar, or a bar: where it begins and ends is not
 * known to the beat. Nearly twice as much takes a player who waits for one who puts a bar in.
 */
const NEAR = 0.6;
/**
 * Share of a beat by which its length differs from those around it in takes that keep their form. From .06 on one and two
 * of the 60 takes are named wrongly, below .04 as many are named, give or take two.
 */
const UNREST = 0.04;
/**
 * Beats by which a passage is tried longer on either side: a squeeze begins and ends softly. With 4 alone 12 of the 60 are
 * named, up to 8 14, up to 12 16, up to 16 and 20 19.
 */
const WIDER = [4, 8, 12, 16, 20] as const;
/** Passages that are tried: with 1 15 of the 60 are named, with 2 17, with 4 and with 8 19, with all 25 20. */
const TRIED = 8;

export interface Passage {
  /** Its first beat, and the one after its last. */
  readonly from: number;
  readonly to: number;
  /** Beats that it has too few (negative) or too many at the tempo around it. */
  readonly excess: number;
}

export interface Steadied {
  readonly reading: Reading;
  /** Beats that the take leaves out (negative) or puts in at the passage. */
  readonly beats: number;
}

/**
 * The reading with its most hurried or dragged passage laid at the tempo around it, by a bar and by half a bar, so that
 * one side of it lies beside the form: the one with fewer strokes.
 */
export function steadied(evidence: Evidence, reading: Reading): Steadied[] {
  const { bar } = evidence.form;
  const found = unsteady(reading.beats);
  if (found === null) return [];
  const sign = Math.sign(found.excess);
  return (bar % 2 === 0 ? [bar, bar / 2] : [bar]).flatMap((size) => {
    const slip = sign * size;
    return passagesOf(reading.beats, found, slip).flatMap((passage) => {
      const steady = laidSteadily(evidence, reading, passage, slip);
      return steady === null ? [] : [{ reading: steady, beats: slip }];
    });
  });
}

function laidSteadily(
  evidence: Evidence,
  reading: Reading,
  { from, to }: Passage,
  slip: number,
): Reading | null {
  const { beats, firstBeat } = reading;
  const { strokes } = evidence;
  const [begin, end] = [beats[from]!, beats[to]!];
  const many = to - from + slip;
  if (many < 1) return null;
  const inside = Array.from({ length: many }, (_, k) => begin + (k * (end - begin)) / many);
  // A player who waits puts no bar in.
  if (slip > 0 && longestRest(evidence, [...inside, end]) >= Math.max(2, slip - 1)) return null;
  const steady = Float64Array.from([...beats.subarray(0, from), ...inside, ...beats.subarray(to)]);
  const before = strokes.time.filter((time) => time < begin).length;
  return {
    ...reading,
    beats: refineBeats(evidence, refineBeats(evidence, steady)),
    firstBeat: before > strokes.count / 2 ? firstBeat : firstBeat - slip,
  };
}

/** Beats in a row in which nothing is struck, where they are most. */
function longestRest({ strokes }: Evidence, beats: readonly number[]): number {
  let [rest, longest] = [0, 0];
  for (let k = 0; k + 1 < beats.length; k++) {
    const early = EARLY * (beats[k + 1]! - beats[k]!);
    const struck = strokes.time.some((time) => time >= beats[k]! - early && time < beats[k + 1]! - early);
    rest = struck ? 0 : rest + 1;
    longest = Math.max(longest, rest);
  }
  return longest;
}

/**
 * The passage whose beats differ most, all in all, from those around it (Kadane's largest sum, both ways).
 *
 * @param beats seconds at which each beat begins
 * @returns null where there are too few beats to tell, or all are alike
 */
export function unsteady(beats: Float64Array): Passage | null {
  const n = beats.length - 1;
  if (n < AROUND) return null;
  const lengths = lengthsOf(beats);
  const apart = lengths.map(
    (length, k) => length / median(lengths.slice(Math.max(0, k - AROUND), k + AROUND + 1))! - 1,
  );
  let best: Passage | null = null;
  for (const sign of [1, -1]) {
    let [sum, from] = [0, 0];
    for (let k = 0; k < n; k++) {
      // What is within the usual unrest of a beat adds nothing, so that passages end.
      sum += sign * apart[k]! - UNREST;
      if (sum <= 0 || k - from >= LONGEST) [sum, from] = [0, k + 1];
      if (sum > (best === null ? 0 : Math.abs(best.excess))) best = { from, to: k + 1, excess: sign * sum };
    }
  }
  return best;
}

/**
 * The passage so much wider that it is nearest to so many beats too short or too long: the nearest few, nearest first.
 *
 * @param slip beats that a passage is to have too few (negative) or too many
 */
export function passagesOf(
  beats: Float64Array,
  { from, to }: Pick<Passage, "from" | "to">,
  slip: number,
): Passage[] {
  const lengths = lengthsOf(beats);
  const all: Passage[] = [];
  for (const sooner of WIDER) {
    for (const later of WIDER) {
      const [first, last] = [Math.max(0, from - sooner), Math.min(lengths.length, to + later)];
      const around = [
        ...lengths.slice(Math.max(0, first - AROUND), first),
        ...lengths.slice(last, last + AROUND),
      ];
      const excess = (beats[last]! - beats[first]!) / (median(around) ?? 1) - (last - first);
      if (Math.abs(excess - slip) <= NEAR) all.push({ from: first, to: last, excess });
    }
  }
  return all.sort((a, b) => Math.abs(a.excess - slip) - Math.abs(b.excess - slip)).slice(0, TRIED);
}

function lengthsOf(beats: Float64Array): number[] {
  return Array.from({ length: beats.length - 1 }, (_, k) => beats[k + 1]! - beats[k]!);
}
