/** Where on the keyboard the hand stood. */
import type { AccountNote } from "../../src/account.ts";

/**
 * Lowest and highest key of each placement's notes by chorus, joined where they overlap or stand on neighbouring keys:
 * a key that no placement covers is left out, since the hand did not stand on it.
 */
export function reachByChorus(solo: readonly AccountNote[]): Map<number, [number, number][]> {
  const spans = new Map<string, { chorus: number; low: number; high: number }>();
  for (const note of solo) {
    if (note.placement === null) continue;
    const key = `${note.chorus}.${note.placement}`;
    const span = spans.get(key);
    if (span) {
      span.low = Math.min(span.low, note.pitch);
      span.high = Math.max(span.high, note.pitch);
    } else spans.set(key, { chorus: note.chorus, low: note.pitch, high: note.pitch });
  }
  const result = new Map<number, [number, number][]>();
  for (const span of [...spans.values()].sort((a, b) => a.low - b.low)) {
    const list = result.get(span.chorus) ?? [];
    const last = list.at(-1);
    if (last && span.low <= last[1] + 1) last[1] = Math.max(last[1], span.high);
    else list.push([span.low, span.high]);
    result.set(span.chorus, list);
  }
  return result;
}
