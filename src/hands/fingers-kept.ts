/** What quick repeats and slides ask of the fingers, whatever the line around them asks. */
import type { Finger } from "../take/index.ts";
import type { HandEvent } from "./hand-event.ts";

/** Repeats faster than this, in seconds, are played with changing fingers: seven or eight a second. [practice] */
const REPEAT_SECONDS = 0.14;

/**
 * A key struck three times or more in quick succession is played with fingers that follow each other towards the
 * thumb, so that the last one is the finger that the place asks for. Printed fingers stay.
 */
export function changeOnRepeats(events: readonly HandEvent[], fingers: (Finger | null)[][]): void {
  let start = 0;
  for (let i = 1; i <= events.length; i++) {
    const [event, before] = [events[i], events[i - 1]!];
    const repeated =
      event !== undefined &&
      event.keys.length === 1 &&
      before.keys.length === 1 &&
      event.keys[0] === before.keys[0] &&
      event.interval <= REPEAT_SECONDS;
    if (repeated) continue;
    const last = fingers[i - 1]![0];
    if (i - start >= 3 && last !== null && last !== undefined && last < 5) {
      const cycle = Math.max(3, last);
      for (let k = start; k < i - 1; k++) {
        if (events[k]!.printed[0] !== null) continue;
        fingers[k]![0] = (((last - 1 + (i - 1 - k)) % cycle) + 1) as Finger;
      }
    }
    start = i;
  }
}

/**
 * A slide is played by one finger: where its two keys came out in two places, that of the note which it leads into,
 * or, where only the first stands in a placement, that one. Printed fingers stay, and so does a placement that has a
 * finger for either key.
 */
export function keepOnSlides(
  events: readonly HandEvent[],
  fingers: (Finger | null)[][],
  runOf: Map<number, number>,
): void {
  events.forEach((event, i) => {
    event.slides.forEach((from, n) => {
      if (from < 0) return;
      const before = events[i - 1]!;
      const [a, b] = [before.notes[from]!, event.notes[n]!];
      const [runA, runB] = [runOf.get(a), runOf.get(b)];
      if (fingers[i]![n] === fingers[i - 1]![from] || (runA !== undefined && runA === runB)) return;
      if (before.printed[from] === null && runA === undefined) fingers[i - 1]![from] = fingers[i]![n]!;
      else if (event.printed[n] === null && runB === undefined) fingers[i]![n] = fingers[i - 1]![from]!;
    });
  });
}

/** The note that the n-th key of event i slides into with its finger, or null. */
export function slidTo(
  events: readonly HandEvent[],
  fingers: readonly (readonly (Finger | null)[])[],
  i: number,
  n: number,
): number | null {
  const event = events[i + 1];
  const to = event?.slides.indexOf(n) ?? -1;
  if (event === undefined || to < 0 || fingers[i]![n] === null) return null;
  return fingers[i + 1]![to] === fingers[i]![n] ? event.notes[to]! : null;
}
