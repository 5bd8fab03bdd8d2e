/** Swing and placing. */
import type { Facts } from "../../findings/facts.ts";
import type { Reading } from "../reading.ts";

/** A spread of fewer pairs says nothing. [practice] */
const PAIRS = 12;

/** Below it pairs of eighths are even, and there is no swing to settle. [practice] */
const SWUNG = 1.15;

/** Interquartile range of the beat-upbeat ratio over its median. */
export function swingSpread({ account, solo }: Facts): Reading {
  const { swing } = account.rhythm;
  if (swing === null || swing.beats < PAIRS) return { untold: `fewer than ${PAIRS} pairs of eighths` };
  if (swing.median < SWUNG) return { untold: "the eighths are played even" };
  const offBeats = solo.filter(({ beat }) => beat !== null && Math.abs((beat % 1) - 0.5) < 0.2);
  return { value: (swing.q3 - swing.q1) / swing.median, notes: offBeats, open: [] };
}

/** How many of the farthest notes are shown. */
const SHOWN = 8;

/** Interquartile range of the timing in milliseconds. */
export function placingSpread({ account, solo }: Facts): Reading {
  const { timing } = account.rhythm;
  if (timing === null) return { untold: "no beat to measure the placing from" };
  const far = solo
    .filter((note) => note.timing !== null)
    .sort((a, b) => Math.abs(b.timing!) - Math.abs(a.timing!))
    .slice(0, SHOWN)
    .sort((a, b) => a.onset - b.onset);
  return { value: timing.q3 - timing.q1, notes: [], open: far };
}
