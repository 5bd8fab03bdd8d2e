/**
 * Fingers for the notes that no placement explains, and for whole lines when no shape is asked about: the cheapest
 * fingering between the fingers that are known, by the ergonomic rules, with weights of our own that also let the
 * hand leap. Struck-together notes take the fingers that lie most relaxed.
 */
import type { Finger } from "../take/index.ts";
import { fillChords } from "./chord-fingers.ts";
import type { RuleWeights } from "./ergonomics.ts";
import type { HandEvent } from "./events.ts";
import { cheapestFingering, type FingeringOptions } from "./fingerings.ts";

/**
 * Weights that fit whole lines, where the published ones were fitted to fragments: chosen so that scales and
 * arpeggios come out as the handbooks print them.
 */
const LINE_WEIGHTS: RuleWeights = {
  stretch: 0.7,
  "small span": 3,
  "large span": 0,
  "position change count": 0,
  "position change size": 1,
  "weak finger": 0.25,
  "three-four-five": 0,
  "three to four": 0.8,
  "four on black": 1,
  "thumb on black": 3,
  "five on black": 4,
  "thumb passing": 1.4,
};

/** How lines are fingered here: the hand may leap, and a passing thumb takes it along. */
export const LINE_FINGERING: FingeringOptions = {
  weights: LINE_WEIGHTS,
  leap: 1.2,
  sameFinger: 12,
  crossing: { each: 2, perSemitone: 0 },
};

/** Longest stretch of unknown fingers searched at once, so that time stays linear. */
const WINDOW = 400;

/**
 * Fingers for every key of every event, as the right hand sees them. `known` holds the fingers already given, one
 * row an event; where a row has nulls they are filled.
 */
export function fillFingers(
  events: readonly HandEvent[],
  known: readonly (readonly (Finger | null)[])[],
): (Finger | null)[][] {
  const filled = fillChords(events, known);
  let i = 0;
  while (i < events.length) {
    if (topOf(filled[i]!) !== null) {
      i++;
      continue;
    }
    let end = i;
    while (end < events.length && topOf(filled[end]!) === null && end - i < WINDOW) end++;
    fillStretch(events, filled, i, end);
    i = end;
  }
  return filled;
}

/** Fingers for events start to end (exclusive), with up to two known events on either side as context. */
function fillStretch(
  events: readonly HandEvent[],
  filled: (Finger | null)[][],
  start: number,
  end: number,
): void {
  const from = Math.max(0, start - 2);
  let to = Math.min(events.length, end + 2);
  for (let k = end; k < to; k++) if (topOf(filled[k]!) === null) to = k;
  const stretch = events.slice(from, to);
  const fingering = cheapestFingering(
    stretch.map((event) => event.keys[event.keys.length - 1]!),
    {
      ...LINE_FINGERING,
      fixed: stretch.map((_, k) => topOf(filled[from + k]!)),
      ease: stretch.map((event, k) => (k === 0 ? 1 : event.ease)),
    },
  );
  if (fingering === null) return;
  for (let k = start; k < end; k++) {
    // What is struck together and has no finger yet is out of a hand's reach.
    const row = filled[k]!;
    if (row.length === 1) row[0] = fingering.fingers[k - from]!;
  }
}

function topOf(row: readonly (Finger | null)[]): Finger | null {
  return row[row.length - 1] ?? null;
}
