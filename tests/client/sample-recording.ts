import { recordingFile } from "../../client/record/recording.ts";
import { sampleAccount } from "./sample-account.ts";

/** A made-up solo of this size on a blues, as the MIDI file that a recording of it would be. */
export function sampleRecording(size: NonNullable<Parameters<typeof sampleAccount>[0]>): Uint8Array {
  const { notes, chart } = sampleAccount(size);
  const played = notes
    .filter((note) => note.solo)
    .map(({ pitch, velocity, onset, duration }) => ({ pitch, velocity, onset, release: onset + duration }));
  return recordingFile({ notes: played, pedal: [] }, 120, chart.meter);
}
