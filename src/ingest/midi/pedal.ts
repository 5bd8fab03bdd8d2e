import type { PedalMark } from "../../take/index.ts";
import type { TickClock } from "../clock.ts";
import type { PairedNote } from "./pair-notes.ts";
import type { TimedTrack } from "./timed-track.ts";

const SUSTAIN = 64;
/** From this value on the pedal is down (MIDI 1.0, controllers 64-69). */
const DOWN = 64;

export interface Pedal {
  /** Changes of "any pedal down", over all channels but the drums'. */
  readonly marks: PedalMark[];
  /** When a key released at `release` seconds falls silent: at once, or when the pedal of its channel comes up. */
  silence(note: PairedNote, release: number): number;
}

/** Reads the sustain pedal of every channel. A pedal still down at the end comes up with the last event. */
export function pedalOf(tracks: readonly TimedTrack[], drums: number, clock: TickClock): Pedal {
  const changes: { tick: number; channel: number; down: boolean }[] = [];
  let end = 0;
  for (const track of tracks) {
    end = Math.max(end, track.ticks.at(-1) ?? 0);
    track.events.forEach((event, i) => {
      if (event.type !== "controller" || event.channel === drums) return;
      if (event.controllerType === SUSTAIN) {
        changes.push({ tick: track.ticks[i]!, channel: event.channel, down: event.value >= DOWN });
      } else if (event.controllerType === 121) {
        // "Reset all controllers" lifts the pedal.
        changes.push({ tick: track.ticks[i]!, channel: event.channel, down: false });
      }
    });
  }
  changes.sort((a, b) => a.tick - b.tick);

  const spans = Array.from({ length: 16 }, (): { from: number[]; to: number[] } => ({ from: [], to: [] }));
  const isDown = new Array<boolean>(16).fill(false);
  const marks: PedalMark[] = [];
  let feet = 0;
  for (const { tick, channel, down } of changes) {
    if (isDown[channel] === down) continue;
    isDown[channel] = down;
    const seconds = clock.seconds(tick);
    spans[channel]![down ? "from" : "to"].push(seconds);
    const before = feet;
    feet += down ? 1 : -1;
    if ((before === 0) !== (feet === 0)) marks.push({ seconds, down });
  }
  const last = clock.seconds(end);
  spans.forEach((span, channel) => {
    if (isDown[channel]) span.to.push(last);
  });
  if (feet > 0) marks.push({ seconds: last, down: false });

  return {
    marks,
    silence(note, release) {
      const { from, to } = spans[note.channel]!;
      const span = lastAtOrBefore(from, release);
      return span >= 0 && to[span]! > release ? to[span]! : release;
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
