import type { PedalMark } from "../take/index.ts";
import type { TickClock } from "./clock.ts";

/** The sustain pedal goes down or comes up. */
export interface PedalChange {
  readonly tick: number;
  /** Whose pedal: a MIDI channel, a part of a score. */
  readonly source: string;
  readonly down: boolean;
}

export interface Pedal {
  /** Changes of "any pedal down". */
  readonly marks: PedalMark[];
  /** The pedal of one channel or part; null when it is never used. */
  of(name: string): SourcePedal | null;
}

export interface SourcePedal {
  /** When a key released at `release` seconds falls silent: at once, or when the pedal comes up. */
  silence(release: number): number;
}

/**
 * Follows the sustain pedals through a take. Saying twice that a pedal is down means nothing new; one still down at
 * the end comes up at `end`.
 *
 * @param end Tick of the end of the take.
 */
export function pedalOf(changes: readonly PedalChange[], end: number, clock: TickClock): Pedal {
  const states = new Map<string, PedalState>();
  const marks: PedalMark[] = [];
  let down = 0;
  const change = (state: PedalState, isDown: boolean, seconds: number): void => {
    state.down = isDown;
    (isDown ? state.from : state.to).push(seconds);
    if (down === (isDown ? 0 : 1)) marks.push({ seconds, down: isDown });
    down += isDown ? 1 : -1;
  };
  let last: PedalState | null = null;
  for (const { tick, source: name, down: isDown } of inOrder(changes)) {
    const state: PedalState = last?.name === name ? last : (states.get(name) ?? new PedalState(name));
    last = state;
    if (state.down === isDown) continue;
    if (state.from.length === 0) states.set(name, state);
    change(state, isDown, clock.seconds(tick));
  }
  const up = Math.max(clock.seconds(end), marks.at(-1)?.seconds ?? 0);
  for (const state of states.values()) if (state.down) change(state, false, up);
  return {
    marks,
    of: (name) => states.get(name) ?? null,
  };
}

class PedalState implements SourcePedal {
  readonly name: string;
  down = false;
  /** Seconds at which it goes down, and comes up again. */
  readonly from: number[] = [];
  readonly to: number[] = [];
  #at = -1;

  constructor(name: string) {
    this.name = name;
  }

  silence(release: number): number {
    // Releases are asked for nearly in order of time, so the search goes on from the last place.
    const { from, to } = this;
    let at = this.#at;
    while (at >= 0 && from[at]! > release) at--;
    while (at + 1 < from.length && from[at + 1]! <= release) at++;
    this.#at = at;
    return at >= 0 ? Math.max(release, to[at]!) : release;
  }
}

function inOrder(changes: readonly PedalChange[]): readonly PedalChange[] {
  for (let i = 1; i < changes.length; i++) {
    if (changes[i]!.tick < changes[i - 1]!.tick) return [...changes].sort((a, b) => a.tick - b.tick);
  }
  return changes;
}
