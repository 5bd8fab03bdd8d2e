/** Turning the pages of a sheet by foot or key: where the next page begins. No page is needed for it. */

/** What turns on, and back: the right pedal and the highest key of a piano; the left pedal and the lowest one. */
export const HIGHEST_KEY = 108;

/** Part of the window that is moved on in something longer than the window: a line of it stays in sight. */
const PART = 0.85;
/** Pixels within which a block counts as standing at the top. */
const NEAR = 8;

/**
 * Where to scroll so that the next block (an exercise, a page) stands at the top of the window; within a block that is
 * longer than the window, most of a window on.
 *
 * @param tops pixels from the top of the document at which blocks begin, rising
 * @param end pixels at which the last block ends
 * @param at where the window stands
 * @returns pixels from the top of the document, never beyond `end` and never below 0
 */
export function nextPage(
  tops: readonly number[],
  end: number,
  at: number,
  window: number,
  direction: "on" | "back",
): number {
  if (direction === "on") {
    const next = tops.find((top) => top > at + NEAR) ?? end;
    // What stands below the window has not been read yet.
    if (next >= at + window) return Math.min(at + PART * window, Math.max(at, end - NEAR));
    return next === end ? at : next;
  }
  const before = tops.findLast((top) => top < at - NEAR) ?? 0;
  return Math.max(0, before, at - PART * window);
}
