/**
 * A take played to a constant beat. First the file's own bars are tried: a recorder that ran with its click gives a
 * grid that the notes fit. Otherwise the beat is found from the notes (see `constant.ts`).
 */
import type { Chart } from "../chart/types.ts";
import type { Take } from "../take/index.ts";
import { barBeats } from "./chart-evidence.ts";
import { type Events, harmonyAt } from "./events.ts";
import { CELLS } from "./metre.ts";

/**
 * How well onsets keep to a beat, 0 (anywhere) to 1 (only at a few places of it): the strongest of the first four
 * circular means of their phases, so that straight, swung, triplet and sixteenth playing all count.
 *
 * @param positions onsets in beats of the grid that is tried
 */
export function gridFit(positions: ArrayLike<number>): number {
  let best = 0;
  for (const part of [1, 2, 3, 4]) {
    let [x, y] = [0, 0];
    for (let i = 0; i < positions.length; i++) {
      const angle = 2 * Math.PI * part * positions[i]!;
      x += Math.cos(angle);
      y += Math.sin(angle);
    }
    best = Math.max(best, Math.hypot(x, y) / positions.length);
  }
  return best;
}

/** Where the first bar line falls: chart position minus grid position (quarter-note beats), and how clear that is. */
export interface Shift {
  readonly shift: number;
  /** Nats by which it is better than the next best whole-beat shift. */
  readonly lead: number;
}

/**
 * Finds the first bar line of the form on a grid of quarter-note beats, by the harmony and by where the bars of the
 * grid are said to be.
 *
 * @param positions events in quarter-note beats of the grid, from its first bar line
 * @param barLines nats for a shift by whole bars, against one that crosses the grid's bars
 */
export function findShift(
  events: Events,
  positions: ArrayLike<number>,
  chart: Chart,
  barLines: number,
): Shift {
  const bar = barBeats(chart);
  const first = positions[0] ?? 0;
  const pulse = chart.meter.unit >= 8 ? 0.5 : 1;
  const firstPulse = Math.round(first / pulse) * pulse;
  let best = { shift: -Math.round(firstPulse / bar) * bar, score: Number.NEGATIVE_INFINITY };
  let second = Number.NEGATIVE_INFINITY;
  // The first stroke may come up to two bars before the first bar line, or one bar after it.
  for (let start = -2 * bar; start <= bar; start += pulse) {
    const shift = start - firstPulse;
    let score = 0;
    for (let e = 0; e < events.count; e++)
      score += harmonyAt(events, e, Math.round((positions[e]! + shift) * CELLS));
    const crossing = Math.abs(shift / bar - Math.round(shift / bar)) > 1e-6;
    if (!crossing) score += barLines;
    // A take most often begins at the first bar line, or shortly before it.
    score -= start === 0 ? 0 : start < 0 ? 1 + Math.abs(start) / bar : 2 + (2 * start) / bar;
    if (score > best.score) {
      second = best.score;
      best = { shift, score };
    } else if (score > second) second = score;
  }
  return { shift: best.shift, lead: best.score - second };
}

/** Positions of the events on the file's own grid, in quarter-note beats from tick 0. */
export function filePositions(take: Take, events: Events): Float64Array {
  const positions = new Float64Array(events.count);
  let mark = 0;
  for (let e = 0; e < events.count; e++) {
    while (mark + 1 < take.tempos.length && take.tempos[mark + 1]!.seconds <= events.time[e]!) mark++;
    const { tick, seconds, quartersPerMinute } = take.tempos[mark]!;
    positions[e] = tick / take.ticksPerQuarter + ((events.time[e]! - seconds) * quartersPerMinute) / 60;
  }
  return positions;
}
