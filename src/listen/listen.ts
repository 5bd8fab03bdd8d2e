/** The flow from sound to heard notes, piece by piece. The network is handed in: who runs it, and where, is not known here. */
import { decodeNotes, type Heardness, KEYS } from "./decode-notes.ts";
import type { Heard } from "./heard.ts";
import { createMel, framesOf, SOUND } from "./mel.ts";
import { piecesOf } from "./pieces.ts";
import { refuseSound, refuseUnheard } from "./refusals.ts";

/** What the network says of some frames of log-mel values; each list holds a number for each frame and key. */
export type Network = (mel: Float32Array, frames: number) => Promise<Omit<Heardness, "frames">>;

/**
 * @param samples mono sound at 16 kHz, -1 to 1
 * @param progress called with the share that is done, 0 to 1
 * @param signal ends the work between two pieces
 * @throws Problem for what is no recording of a piano that can be heard; the signal's reason when it was ended
 */
export async function listen(
  samples: Float32Array,
  network: Network,
  { progress, signal }: { progress?: (share: number) => void; signal?: AbortSignal } = {},
): Promise<Heard> {
  refuseSound(samples);
  const heardness = await heardnessOf(samples, network, progress, signal);
  const notes = decodeNotes(heardness);
  const heard: Heard = {
    heard: "piano",
    version: 1,
    seconds: samples.length / SOUND.rate,
    notes,
    pedal: [],
  };
  refuseUnheard(heard);
  return heard;
}

/** What the network says of a whole sound. */
export async function heardnessOf(
  samples: Float32Array,
  network: Network,
  progress?: (share: number) => void,
  signal?: AbortSignal,
): Promise<Heardness> {
  const frames = framesOf(samples.length);
  const whole = {
    frames,
    onset: new Float32Array(frames * KEYS),
    sounding: new Float32Array(frames * KEYS),
    loudness: new Float32Array(frames * KEYS),
  };
  const mel = createMel();
  for (const { from, to, heardFrom, heardTo } of piecesOf(samples.length)) {
    signal?.throwIfAborted();
    const said = await network(mel.frames(samples, heardFrom, heardTo), heardTo - heardFrom);
    const [first, last] = [(from - heardFrom) * KEYS, (to - heardFrom) * KEYS];
    for (const name of ["onset", "sounding", "loudness"] as const)
      whole[name].set(said[name].subarray(first, last), from * KEYS);
    progress?.(to / frames);
  }
  return whole;
}
