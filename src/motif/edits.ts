/** Two rows of things, one wanted and one given, and when one of each is the same. */
export interface Elements {
  readonly wanted: number;
  readonly given: number;
  equal(wanted: number, given: number): boolean;
}

/**
 * Fewest edits (one changed, added or left out each) that turn the rest of the wanted row into the beginning of what
 * follows in the given one; among equals, the one that uses as many as were wanted. A band of the usual table
 * (Ukkonen 1985), so the work is the length times the edits.
 *
 * @param from first wanted one, `at` first given one
 * @param direction 1 forwards, -1 backwards
 * @returns edits and the number of given ones used, or null when more edits are needed than `most`
 */
export function extend(
  elements: Elements,
  from: number,
  at: number,
  direction: 1 | -1,
  most: number,
): { edits: number; used: number } | null {
  const wanted = direction > 0 ? elements.wanted - from : from + 1;
  const given = Math.max(0, direction > 0 ? elements.given - at : at + 1);
  if (most === 0) return extendPlainly(elements, from, at, direction, wanted, given);
  const width = 2 * most + 1;
  const beyond = most + 1;
  let row = new Array<number>(width + 1).fill(beyond);
  let next = new Array<number>(width + 1).fill(beyond);
  // Cell d of row i is the cost of having used i + d - most of the given ones.
  for (let d = most; d < width && d - most <= given; d++) row[d] = d - most;
  for (let i = 1; i <= wanted; i++) {
    let least = beyond;
    for (let d = 0; d < width; d++) {
      const used = i + d - most;
      next[d] = beyond;
      if (used < 0 || used > given) continue;
      let cost = row[d + 1]! + 1;
      if (d > 0) cost = Math.min(cost, next[d - 1]! + 1);
      if (used > 0) {
        const same = elements.equal(from + direction * (i - 1), at + direction * (used - 1));
        cost = Math.min(cost, row[d]! + (same ? 0 : 1));
      }
      next[d] = Math.min(beyond, cost);
      least = Math.min(least, cost);
    }
    // Costs never fall from one row to the next.
    if (least > most) return null;
    [row, next] = [next, row];
  }
  let best = -1;
  for (let d = 0; d < width; d++) {
    if (row[d]! > most) continue;
    const nearer = best < 0 || Math.abs(d - most) < Math.abs(best - most);
    if (best < 0 || row[d]! < row[best]! || (row[d] === row[best] && nearer)) best = d;
  }
  return best < 0 ? null : { edits: row[best]!, used: wanted + best - most };
}

function extendPlainly(
  elements: Elements,
  from: number,
  at: number,
  direction: 1 | -1,
  wanted: number,
  given: number,
): { edits: number; used: number } | null {
  if (wanted > given) return null;
  for (let i = 0; i < wanted; i++) {
    if (!elements.equal(from + direction * i, at + direction * i)) return null;
  }
  return { edits: 0, used: wanted };
}
