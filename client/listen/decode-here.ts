/** Sound that the browser decodes better than the server: videos, what its own microphone wrote, and very large files. */
import { mono } from "../../src/listen/resample.ts";
import { waveBytes } from "../../src/listen/wave.ts";

const RATE = 16_000;
/** Names of what the server is slow at or does not know. */
const OURS = /\.(webm|mp4|mov|mkv|3gp)$/i;
/** Bytes that may be sent at once, with some room for the form around them. */
const MOST = 60_000_000;

/** The same sound as a plain file of 16 kHz where the server should not have to decode it; else the file as it is. */
export async function readyToSend(file: File): Promise<File> {
  if (!OURS.test(file.name) && file.size <= MOST) return file;
  try {
    const context = new OfflineAudioContext(1, 1, RATE);
    const sound = await context.decodeAudioData(await file.arrayBuffer());
    const channels = Array.from({ length: sound.numberOfChannels }, (_, i) => sound.getChannelData(i));
    return new File([waveBytes(mono(channels), RATE)], file.name, { type: "audio/wav" });
  } catch {
    // What this browser cannot decode the server may know; it says so in words otherwise.
    return file;
  }
}
