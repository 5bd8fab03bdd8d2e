/**
 * For each note the time of the next strike of the same key; infinite for the last. Striking a key again ends what
 * the pedal held of it. `at` is in any unit.
 *
 * @param notes In order of time.
 */
export function nextStrikes(
  notes: readonly { readonly key: string | number; readonly at: number }[],
): number[] {
  const next = new Map<string | number, number>();
  const strikes = new Array<number>(notes.length);
  for (let i = notes.length - 1; i >= 0; i--) {
    const { key, at } = notes[i]!;
    strikes[i] = next.get(key) ?? Number.POSITIVE_INFINITY;
    next.set(key, at);
  }
  return strikes;
}
