import type { StrikeColumns } from "./strikes.ts";

/** Notes struck at one tick are put in order one by one up to this many: no pianist has more fingers. */
const HANDFUL = 32;

/**
 * The order of strikes by tick, then pitch; equal ones keep the order in which they were struck in the file.
 *
 * A track stands in order of time already, so only the notes of one tick are sorted by pitch, and then the tracks
 * are merged.
 *
 * @param ranges Of strikes, one for each track, one after the other.
 * @returns Their indices.
 */
export function orderStrikes(
  strikes: StrikeColumns,
  ranges: readonly { readonly from: number; readonly to: number }[],
): Uint32Array {
  const start = ranges[0]!.from;
  const order = new Uint32Array(ranges.at(-1)!.to - start);
  for (let i = 0; i < order.length; i++) order[i] = start + i;
  /** Where the ordered stretches begin, in `order`; and where the last one ends. */
  let bounds = [0];
  for (const { from, to } of ranges) {
    if (from === to) continue;
    sortPitches(strikes, order, from - start, to - start);
    bounds.push(to - start);
  }
  const spare = bounds.length > 2 ? new Uint32Array(order.length) : order;
  while (bounds.length > 2) {
    const next = [0];
    for (let i = 0; i + 1 < bounds.length; i += 2) {
      const end = bounds[i + 2] ?? bounds[i + 1]!;
      if (end > bounds[i + 1]!) merge(strikes, order, spare, bounds[i]!, bounds[i + 1]!, end);
      next.push(end);
    }
    bounds = next;
  }
  return order;
}

/** Sorts the notes of each tick of one track by pitch. */
function sortPitches({ tick, key }: StrikeColumns, order: Uint32Array, from: number, to: number): void {
  const first = order[from]! - from;
  let group = from;
  for (let i = from + 1; i <= to; i++) {
    if (i < to && tick[first + i] === tick[first + group]) continue;
    if (i - group > HANDFUL) {
      order.subarray(group, i).sort((a, b) => (key[a]! & 127) - (key[b]! & 127) || a - b);
    } else {
      for (let next = group + 1; next < i; next++) {
        const pitch = key[first + next]! & 127;
        let at = next;
        while (at > group && (key[order[at - 1]!]! & 127) > pitch) {
          order[at] = order[at - 1]!;
          at--;
        }
        order[at] = first + next;
      }
    }
    group = i;
  }
}

/** Merges two neighbouring ordered stretches. */
function merge(
  { tick, key }: StrikeColumns,
  order: Uint32Array,
  spare: Uint32Array,
  start: number,
  middle: number,
  end: number,
): void {
  for (let i = start; i < middle; i++) spare[i] = order[i]!;
  let a = start;
  let b = middle;
  for (let at = start; a < middle; at++) {
    const left = spare[a]!;
    const right = b < end ? order[b]! : -1;
    const later = right < 0 ? -1 : tick[left]! - tick[right]!;
    if (later > 0 || (later === 0 && (key[left]! & 127) > (key[right]! & 127))) {
      order[at] = right;
      b++;
    } else {
      order[at] = left;
      a++;
    }
  }
}
