/**
 * What each hand does in a take, learnt from a first parting: how many keys it strikes at once, how long it holds
 * them, how loud it plays and where it lies at the moment. Sure notes teach more than doubtful ones; what both hands
 * do alike says nothing.
 */
import { median } from "d3-array";
import { PARTING_COSTS, type PartedInput } from "./costs.ts";

export interface HandRoles {
  /** For each note, what it costs to give it to the left and to the right hand. */
  readonly left: Float64Array;
  readonly right: Float64Array;
  /** What it costs that the hands strike so many keys together. */
  sizes(left: number, right: number): number;
}

/** A parting that roles are learnt from; both parallel to the notes. */
export interface Parted {
  readonly right: Uint8Array;
  readonly margin: Float64Array;
}

/** Learns the hands' roles from a parting. `groups` are the notes struck together. */
export function handRoles(
  notes: readonly PartedInput[],
  groups: readonly (readonly number[])[],
  parted: Parted,
): HandRoles {
  const costs = PARTING_COSTS;
  const left = new Float64Array(notes.length);
  const right = new Float64Array(notes.length);
  const weigh = (odds: Float64Array, weight: number) => {
    odds.forEach((value, i) => {
      left[i]! += weight * priceOf(-value);
      right[i]! += weight * priceOf(value);
    });
  };
  const lengths = notes.map((note) => Math.log2(Math.max(0.03, note.duration)) * 3 + 16);
  weigh(oddsOf(lengths, 32, parted), costs.roleLength);
  if (notes.every((note) => note.velocity !== undefined)) {
    weigh(oddsOf(loudnesses(notes), LOUDNESS_STEPS + 1, parted), costs.roleLoudness);
  }
  weigh(placeOdds(notes, parted), costs.rolePlace);
  return { left, right, sizes: sizePrices(groups, parted) };
}

/** Steps of loudness, ten to a doubling, the take's median in the middle. */
const LOUDNESS_STEPS = 32;

/** Loudness against the take's own median, so that a take played or recorded softer is parted alike. */
function loudnesses(notes: readonly PartedInput[]): number[] {
  const middle = Math.max(1, median(notes, (note) => note.velocity) ?? 1);
  return notes.map((note) => {
    const doublings = Math.log2(Math.max(1, note.velocity!) / middle);
    return Math.max(0, Math.min(LOUDNESS_STEPS, 10 * doublings + LOUDNESS_STEPS / 2));
  });
}

/** Nats that a choice costs when the odds (log) speak for it; what is even costs nothing, what fits gains little. */
function priceOf(odds: number): number {
  return Math.log((1 + Math.exp(-odds)) / 2);
}

/** Log of how much likelier a value is in the right hand than in the left, by smoothed histograms. */
function oddsOf(values: readonly number[], bins: number, parted: Parted): Float64Array {
  const counts = [new Float64Array(bins), new Float64Array(bins)] as const;
  const sums: [number, number] = [0, 0];
  const binOf = (value: number) => Math.max(0, Math.min(bins - 1, Math.round(value)));
  values.forEach((value, i) => {
    const hand = parted.right[i] as 0 | 1;
    const weight = 0.05 + parted.margin[i]!;
    const bin = binOf(value);
    for (let near = -3; near <= 3; near++) {
      const at = bin + near;
      if (at >= 0 && at < bins) counts[hand][at]! += weight * SMOOTH[near + 3]!;
    }
    sums[hand] += weight;
  });
  const odds = new Float64Array(bins);
  for (let bin = 0; bin < bins; bin++) {
    // Few notes prove little: both hands are given a few notes of everything.
    const [l, r] = counts.map((row, hand) => {
      const any = (counts[0][bin]! + counts[1][bin]!) / (sums[0] + sums[1] + 1e-9);
      return (row[bin]! + 4 * any + 0.02) / (sums[hand as 0 | 1] + 4 + 0.02 * bins);
    }) as [number, number];
    odds[bin] = Math.log(r / l);
  }
  return Float64Array.from(values, (value) => odds[binOf(value)]!);
}

/** A bell over seven bins. */
const SMOOTH = [0.03, 0.11, 0.22, 0.28, 0.22, 0.11, 0.03];

/**
 * Seconds and semitones within which a hand's other notes say where it lies. The notes of the same gesture say
 * nothing: wherever one of them goes, the others go too.
 */
const NEAR_TIME = 3;
const GESTURE = 0.6;
const NEAR_PITCH = 2.5;

/** Log of how much likelier a key lies in the right hand, by the notes around it in time and pitch. */
function placeOdds(notes: readonly PartedInput[], parted: Parted): Float64Array {
  const odds = new Float64Array(notes.length);
  let first = 0;
  for (let i = 0; i < notes.length; i++) {
    const { onset, pitch } = notes[i]!;
    while (onset - notes[first]!.onset > 3 * NEAR_TIME) first++;
    const sums: [number, number] = [0.5, 0.5];
    for (let k = first; k < notes.length; k++) {
      const late = notes[k]!.onset - onset;
      if (late > 3 * NEAR_TIME) break;
      const apart = notes[k]!.pitch - pitch;
      if (Math.abs(late) < GESTURE || apart > 8 || apart < -8) continue;
      sums[parted.right[k] as 0 | 1] +=
        parted.margin[k]! *
        Math.exp(-Math.abs(late) / NEAR_TIME - (apart * apart) / (2 * NEAR_PITCH * NEAR_PITCH));
    }
    odds[i] = Math.log(sums[1] / sums[0]);
  }
  return odds;
}

const MOST = 6;

/** Price of each pair of stroke sizes, against the other pairs that strike as many keys. */
function sizePrices(groups: readonly (readonly number[])[], parted: Parted): HandRoles["sizes"] {
  const counts = new Float64Array(MOST * MOST);
  for (const group of groups) {
    let rights = 0;
    let weight = 0;
    for (const i of group) {
      rights += parted.right[i]!;
      weight += (0.05 + parted.margin[i]!) / group.length;
    }
    counts[sizeKey(group.length - rights, rights)]! += weight;
  }
  const prices = Float64Array.from(counts, (count, key) => {
    const left = Math.floor(key / MOST);
    const right = key % MOST;
    let all = 0;
    let pairs = 0;
    for (let l = 0; l <= left + right; l++) {
      all += counts[sizeKey(l, left + right - l)]!;
      pairs++;
    }
    return -Math.log((count + 0.7) / (all + 0.7 * pairs)) - Math.log(pairs);
  });
  return (left, right) => PARTING_COSTS.roleSize * prices[sizeKey(left, right)]!;
}

function sizeKey(left: number, right: number): number {
  return Math.min(MOST - 1, left) * MOST + Math.min(MOST - 1, right);
}
