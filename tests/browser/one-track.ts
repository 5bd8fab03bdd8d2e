/** What one hand or two play on one track of a file, as a recorder writes it. */
import { playMidi } from "../../src/export/play-midi.ts";

interface Struck {
  readonly pitch: number;
  /** Quarter notes: where it begins, and how long it is held. */
  readonly at: number;
  readonly beats: number;
}

/**
 * @param tempo of the file, in quarter notes a minute
 * @param beats of its bars, in quarter notes
 */
export function oneTrack(tempo: number, beats: number, notes: readonly Struck[]): Uint8Array {
  return playMidi({
    title: "",
    tempo,
    meter: { beats, unit: 4 },
    tracks: [
      { name: "Piano", channel: 0, program: 0, notes: notes.map((note) => ({ ...note, velocity: 64 })) },
    ],
  });
}
