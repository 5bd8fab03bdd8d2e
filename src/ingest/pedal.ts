import type { PedalMark } from "../take/index.ts";
import type { TickClock } from "./clock.ts";

/** The sustain pedal goes down or comes up. */
export interface PedalChange {
  readonly tick: number;
  /** Whose pedal: a MIDI channel, a part of a score. */
  readonly foot: string;
  readonly down: boolean;
}

export interface Pedal {
  /** Changes of "any pedal down". */
  readonly marks: PedalMark[];
  /** When a key released at `release` seconds falls silent: at once, or when its pedal comes up. */
  silence(foot: string, release: number): number;
}

/**
 * Follows the sustain pedals through a take. Saying twice that a pedal is down means nothing new; one still down at
 * the end comes up at `end`.
 *
 * @param end Tick of the end of the take.
 */
export function pedalOf(changes: readonly PedalChange[], end: number, clock: TickClock): Pedal {
  const spans = new Map<string, { from: number[]; to: number[] }>();
  const down = new Set<string>();
  const marks: PedalMark[] = [];
  const change = (foot: string, isDown: boolean, seconds: number): void => {
    if (down.has(foot) === isDown) return;
    const span = spans.get(foot) ?? { from: [], to: [] };
    spans.set(foot, span);
    (isDown ? span.from : span.to).push(seconds);
    if (down.size === (isDown ? 0 : 1)) marks.push({ seconds, down: isDown });
    if (isDown) down.add(foot);
    else down.delete(foot);
  };
  for (const { tick, foot, down: isDown } of [...changes].sort((a, b) => a.tick - b.tick)) {
    change(foot, isDown, clock.seconds(tick));
  }
  const last = Math.max(clock.seconds(end), marks.at(-1)?.seconds ?? 0);
  for (const foot of [...down]) change(foot, false, last);

  return {
    marks,
    silence(foot, release) {
      const span = spans.get(foot);
      if (span === undefined) return release;
      const index = lastAtOrBefore(span.from, release);
      return index >= 0 ? Math.max(release, span.to[index]!) : release;
    },
  };
}

function lastAtOrBefore(rising: readonly number[], value: number): number {
  let low = -1;
  let high = rising.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (rising[middle]! <= value) low = middle;
    else high = middle - 1;
  }
  return low;
}
