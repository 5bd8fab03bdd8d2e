import { count, type Notices } from "../notices.ts";
import type { TimedTrack } from "./timed-track.ts";

/** A note-on with its note-off. */
export interface PairedNote {
  /** 0 to 15. */
  readonly channel: number;
  readonly pitch: number;
  readonly velocity: number;
  readonly tick: number;
  /** At least 1. */
  readonly ticks: number;
}

interface Strike {
  readonly tick: number;
  readonly velocity: number;
  end: number;
}

/** All strikes and releases of one key of one channel. */
interface KeyHistory {
  readonly channel: number;
  readonly pitch: number;
  readonly strikes: Strike[];
  readonly releases: number[];
  /** Number of strikes that have been released, first struck first. */
  released: number;
}

/** "All sound off" and "all notes off". */
const ALL_OFF: ReadonlySet<number> = new Set([120, 123, 124, 125, 126, 127]);

/**
 * Pairs the notes of one track. Of overlapping notes on one key the first struck is the first released, as the order
 * of events suggests; when a release is missing, this would make one note very long, so on that key a new strike
 * ends the one before, and a last note without an end is held to the end of the track.
 *
 * @param drums Channel whose notes are only counted.
 */
export function pairNotes(
  track: TimedTrack,
  drums: number,
  notices: Notices,
): { readonly notes: PairedNote[]; readonly drumNotes: number } {
  let drumNotes = 0;
  const keys: (KeyHistory | undefined)[] = [];
  const endOfTrack = track.ticks.at(-1) ?? 0;
  let stray = 0;
  track.events.forEach((event, i) => {
    if (!("channel" in event) || event.type === "channelPrefix") return;
    if (event.channel === drums) {
      if (event.type === "noteOn") drumNotes++;
    } else if (event.type === "noteOn") {
      const index = event.channel * 128 + event.noteNumber;
      const key = keys[index] ?? newKey(event.channel, event.noteNumber);
      keys[index] = key;
      key.strikes.push({ tick: track.ticks[i]!, velocity: event.velocity, end: -1 });
    } else if (event.type === "noteOff") {
      const key = keys[event.channel * 128 + event.noteNumber];
      if (key === undefined || !release(key, track.ticks[i]!)) stray++;
    } else if (event.type === "controller" && ALL_OFF.has(event.controllerType)) {
      for (let pitch = 0; pitch < 128; pitch++) {
        const key = keys[event.channel * 128 + pitch];
        while (key !== undefined && release(key, track.ticks[i]!));
      }
    }
  });
  if (stray > 0) {
    notices.add(
      "stray-note-off",
      `track ${track.number}`,
      (times) => `${count(times, "note-off")} without a note ${times === 1 ? "was" : "were"} passed over.`,
      stray,
    );
  }

  const notes: PairedNote[] = [];
  for (const key of keys) {
    if (key === undefined) continue;
    if (key.released < key.strikes.length) closeHanging(key, endOfTrack, track.number, notices);
    for (const strike of key.strikes) {
      if (strike.end === strike.tick) {
        notices.add(
          "note-without-length",
          `track ${track.number}, tick ${strike.tick}`,
          (times) => `${count(times, "note")} without length ${times === 1 ? "was" : "were"} given one tick.`,
        );
      }
      notes.push({
        channel: key.channel,
        pitch: key.pitch,
        velocity: strike.velocity,
        tick: strike.tick,
        ticks: Math.max(1, strike.end - strike.tick),
      });
    }
  }
  return { notes: notes.sort((a, b) => a.tick - b.tick || a.pitch - b.pitch), drumNotes };
}

function newKey(channel: number, pitch: number): KeyHistory {
  return { channel, pitch, strikes: [], releases: [], released: 0 };
}

function release(key: KeyHistory, tick: number): boolean {
  const strike = key.strikes[key.released];
  if (strike === undefined) return false;
  strike.end = tick;
  key.releases.push(tick);
  key.released++;
  return true;
}

function closeHanging(key: KeyHistory, endOfTrack: number, track: number, notices: Notices): void {
  const { strikes, releases } = key;
  let next = 0;
  strikes.forEach((strike, i) => {
    const restrike = strikes[i + 1]?.tick ?? Number.POSITIVE_INFINITY;
    while (next < releases.length && releases[next]! < strike.tick) next++;
    if (next < releases.length && releases[next]! <= restrike) strike.end = releases[next++]!;
    else strike.end = Math.min(restrike, endOfTrack);
  });
  notices.add(
    "hanging-note",
    `track ${track}, tick ${strikes.find((_, i) => i >= key.released)?.tick ?? 0}`,
    (times) =>
      `${count(times, "note")} without a note-off ${times === 1 ? "was" : "were"} ended at the next strike of the key or at the end of the track.`,
    strikes.length - key.released,
  );
}
