import type { MidiData, MidiEvent } from "midi-file";
import { decodeText } from "../decode-text.ts";

/** A track with the absolute time of each event. */
export interface TimedTrack {
  /** From 1, in the order of the file. */
  readonly number: number;
  readonly name: string | null;
  readonly events: readonly MidiEvent[];
  /** Absolute time of each event, in ticks; parallel to `events`. */
  readonly ticks: readonly number[];
}

export function timedTracks(data: MidiData): TimedTrack[] {
  return data.tracks.map((events, index) => {
    let tick = 0;
    const ticks = events.map((event) => {
      tick += event.deltaTime;
      return tick;
    });
    return { number: index + 1, name: nameOf(events), events, ticks };
  });
}

function nameOf(events: readonly MidiEvent[]): string | null {
  let instrument: string | null = null;
  for (const event of events) {
    if (event.type === "trackName" && event.text.trim() !== "") return decodeText(event.text);
    if (event.type === "instrumentName" && event.text.trim() !== "") instrument ??= decodeText(event.text);
  }
  return instrument;
}
