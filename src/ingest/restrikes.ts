/**
 * For each note the time of the next strike of the same key; infinite for the last. Striking a key again ends what
 * the pedal held of it.
 *
 * @param keys Of each note, in order of time: a number from 0, below `keyCount`.
 * @param times Of each note, in any unit.
 */
export function nextStrikes(
  keys: ArrayLike<number>,
  times: ArrayLike<number>,
  keyCount: number,
): Float64Array {
  const next = new Float64Array(keyCount).fill(Number.POSITIVE_INFINITY);
  const strikes = new Float64Array(keys.length);
  for (let i = keys.length - 1; i >= 0; i--) {
    const key = keys[i]!;
    strikes[i] = next[key]!;
    next[key] = times[i]!;
  }
  return strikes;
}
