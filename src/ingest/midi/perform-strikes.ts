import { type Note, type Part, Problem } from "../../take/index.ts";
import type { TickClock } from "../clock.ts";
import { LIMITS } from "../limits.ts";
import type { Pedal } from "../pedal.ts";
import { CHANNEL_NAMES } from "./midi-track.ts";
import type { StrikeColumns } from "./strikes.ts";

const KEYS = 16 * 128;

/**
 * Makes notes of strikes.
 *
 * @param order Indices of the strikes, in order of time; at least one.
 * @param partOf For each strike the index of its part.
 * @throws Problem when the last one stands too far from the start.
 */
export function performStrikes(
  strikes: StrikeColumns,
  order: Uint32Array,
  parts: readonly Part[],
  partOf: Uint32Array,
  clock: TickClock,
  pedal: Pedal,
): Note[] {
  const { count, tick, end, key, velocity } = strikes;
  refuseLong(clock.seconds(tick[order.at(-1)!]!));
  const onsets = clock.column(tick.subarray(0, count));
  const releases = clock.column(end.subarray(0, count));
  const silences = silencesOf(strikes, order, onsets, releases, pedal);
  const only = parts.length === 1 ? parts[0]!.id : null;
  const notes = new Array<Note>(order.length);
  for (let place = 0; place < order.length; place++) {
    const index = order[place]!;
    const from = tick[index]!;
    const onset = onsets[index]!;
    const duration = releases[index]! - onset;
    notes[place] = {
      id: `n${place + 1}`,
      pitch: key[index]! & 127,
      onset,
      duration,
      sounding: silences[index]! - onset,
      velocity: velocity[index]!,
      tick: from,
      ticks: end[index]! - from,
      part: only ?? parts[partOf[index]!]!.id,
      printed: null,
    };
  }
  return notes;
}

/**
 * For each strike when it falls silent: at its release, or when the pedal comes up or the key is struck again,
 * whichever is first.
 */
function silencesOf(
  { key }: StrikeColumns,
  order: Uint32Array,
  onsets: Float64Array,
  releases: Float64Array,
  pedal: Pedal,
): Float64Array {
  const pedals = CHANNEL_NAMES.map((name) => pedal.of(name));
  if (pedals.every((one) => one === null)) return releases;
  const silences = releases.slice();
  const restrike = new Float64Array(KEYS).fill(Number.POSITIVE_INFINITY);
  for (let place = order.length - 1; place >= 0; place--) {
    const index = order[place]!;
    const release = releases[index]!;
    const own = key[index]!;
    const held = pedals[own >> 7];
    if (held !== null && held !== undefined) {
      silences[index] = Math.max(release, Math.min(held.silence(release), restrike[own]!));
    }
    restrike[own] = onsets[index]!;
  }
  return silences;
}

function refuseLong(seconds: number): void {
  if (seconds <= LIMITS.seconds) return;
  throw new Problem(
    "take-too-long",
    `The last note stands ${Math.round(seconds / 3600)} hours after the start`,
    null,
    "Cut the file to the solo; at most 12 hours are read.",
  );
}
