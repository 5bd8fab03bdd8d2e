import type { PedalChange } from "../pedal.ts";
import type { TimedTrack } from "./timed-track.ts";

const SUSTAIN = 64;
/** From this value on the pedal is down (MIDI 1.0, controllers 64-69). */
const DOWN = 64;
/** "Reset all controllers", which lifts the pedal. */
const RESET = 121;

/** Changes of the sustain pedal on every channel but the drums', and the last tick of the tracks. */
export function pedalChanges(
  tracks: readonly TimedTrack[],
  drums: number,
): { changes: PedalChange[]; end: number } {
  const changes: PedalChange[] = [];
  let end = 0;
  for (const track of tracks) {
    end = Math.max(end, track.ticks.at(-1) ?? 0);
    track.events.forEach((event, i) => {
      if (event.type !== "controller" || event.channel === drums) return;
      const { controllerType, value, channel } = event;
      if (controllerType !== SUSTAIN && controllerType !== RESET) return;
      const down = controllerType === SUSTAIN && value >= DOWN;
      changes.push({ tick: track.ticks[i]!, foot: String(channel), down });
    });
  }
  return { changes, end };
}
