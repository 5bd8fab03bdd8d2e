import type { StrikeColumns } from "./strikes.ts";

/** Stretches of this length are put in order note by note, longer ones by merging. */
const SHORT = 32;

/**
 * The order of strikes by tick, then pitch; equal ones keep the order in which they were struck in the file.
 *
 * What is sorted already, as nearly all of a track is, costs one look a note; tracks are merged.
 *
 * @param from,to Range of strikes.
 * @returns Their indices.
 */
export function orderStrikes({ tick, key }: StrikeColumns, from: number, to: number): Uint32Array {
  const count = to - from;
  const order = new Uint32Array(count);
  /** Tick and pitch in one number, by index of the strike. */
  const rank = new Float64Array(to);
  let sorted = true;
  let before = -1;
  for (let i = 0; i < count; i++) {
    const index = from + i;
    const own = tick[index]! * 128 + (key[index]! & 127);
    order[i] = index;
    rank[index] = own;
    sorted &&= own >= before;
    before = own;
  }
  if (sorted) return order;

  for (let start = 0; start < count; start += SHORT) {
    const end = Math.min(start + SHORT, count);
    for (let i = start + 1; i < end; i++) {
      const moved = order[i]!;
      const own = rank[moved]!;
      let at = i;
      while (at > start && rank[order[at - 1]!]! > own) {
        order[at] = order[at - 1]!;
        at--;
      }
      order[at] = moved;
    }
  }
  const spare = new Uint32Array(count);
  for (let width = SHORT; width < count; width *= 2) {
    for (let start = 0; start + width < count; start += 2 * width) {
      merge(order, spare, rank, start, start + width, Math.min(start + 2 * width, count));
    }
  }
  return order;
}

/** Merges two neighbouring stretches; only where they overlap is anything moved. */
function merge(
  order: Uint32Array,
  spare: Uint32Array,
  rank: Float64Array,
  start: number,
  middle: number,
  end: number,
): void {
  const right = rank[order[middle]!]!;
  let left = middle;
  while (left > start && rank[order[left - 1]!]! > right) left--;
  if (left === middle) return;
  for (let a = left; a < middle; a++) spare[a] = order[a]!;
  let b = middle;
  let at = left;
  for (let a = left; a < middle; ) {
    if (b < end && rank[spare[a]!]! > rank[order[b]!]!) order[at++] = order[b++]!;
    else order[at++] = spare[a++]!;
  }
}
