/** A stretch of performed time, in seconds. */
export interface Stretch {
  readonly start: number;
  readonly end: number;
}

/**
 * Share of a stretch of time in which none of the notes is held, 0 to 1. Silences shorter than `breath` seconds are
 * the gaps of normal touch and do not count as rest; an empty stretch has no rests.
 *
 * @param notes onset and duration in seconds, sorted by onset
 * @param breath default 0.12 s: longer than the gap between detached eighths at a medium tempo [practice]
 */
export function restShare(
  notes: readonly { readonly onset: number; readonly duration: number }[],
  within: Stretch,
  breath = 0.12,
): number {
  const length = within.end - within.start;
  if (length <= 0) return 0;
  let silent = 0;
  let heardUntil = within.start;
  for (const note of notes) {
    if (note.onset >= within.end) break;
    const gap = note.onset - heardUntil;
    if (gap >= breath) silent += gap;
    heardUntil = Math.max(heardUntil, Math.min(within.end, note.onset + note.duration));
  }
  if (within.end - heardUntil >= breath) silent += within.end - heardUntil;
  return Math.min(1, silent / length);
}
