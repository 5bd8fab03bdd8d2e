/** Sound in a file, as samples of 16 bits: half an hour of it need not be held while it is heard. */
import { closeSync, openSync, readSync, writeSync } from "node:fs";
import { putSamples, type Sound, WHOLE } from "../../src/listen/index.ts";

export interface SoundFile extends Sound {
  /** Puts samples from -1 to 1 behind those before. */
  put(samples: Float32Array): void;
  close(): void;
}

/** @param path of a file that is made anew */
export function createSoundFile(path: string): SoundFile {
  const file = openSync(path, "w+");
  const size = Int16Array.BYTES_PER_ELEMENT;
  let length = 0;
  return {
    get length() {
      return length;
    },
    full: WHOLE,
    put(samples) {
      const whole = new Int16Array(samples.length);
      putSamples(whole, samples, 0);
      const bytes = new Uint8Array(whole.buffer);
      for (let at = 0; at < bytes.length; )
        at += writeSync(file, bytes, at, bytes.length - at, length * size + at);
      length += samples.length;
    },
    part(from, to) {
      const samples = new Int16Array(to - from);
      const bytes = new Uint8Array(samples.buffer);
      for (let at = 0; at < bytes.length; ) {
        const read = readSync(file, bytes, at, bytes.length - at, from * size + at);
        if (read === 0) throw new Error("the file of the sound was cut off");
        at += read;
      }
      return samples;
    },
    close: () => closeSync(file),
  };
}
