/** Mono sound at 16 kHz: numbers from -1 to 1, or whole ones of 16 bits, which hold half an hour in half the memory. */
export type Samples = Float32Array | Int16Array;

/** Such sound where it need not be held: half an hour of it may lie in a file. */
export interface Sound {
  /** Number of samples. */
  readonly length: number;
  /** What stands for full scale. */
  readonly full: number;
  /** The samples from one place up to another, both within the sound. */
  part(from: number, to: number): Samples;
}

/** What stands for full scale in samples that are whole numbers. */
export const WHOLE = 32_767;

/** What stands for full scale in such an array. */
export function fullScale(samples: Samples): number {
  return samples instanceof Int16Array ? WHOLE : 1;
}

export function soundOf(samples: Samples | Sound): Sound {
  if ("part" in samples) return samples;
  return { length: samples.length, full: fullScale(samples), part: (from, to) => samples.subarray(from, to) };
}

/** Samples that are looked at in one go where a sound is gone through. */
const STRETCH = 1 << 16;

/** All of a sound, stretch after stretch. */
export function* stretchesOf(sound: Sound, length: number = STRETCH): Generator<Samples> {
  for (let from = 0; from < sound.length; from += length)
    yield sound.part(from, Math.min(sound.length, from + length));
}

/** Puts samples from -1 to 1 into their place; what is louder is cut. */
export function putSamples(into: Int16Array, samples: Float32Array, at: number): void {
  for (let i = 0; i < samples.length; i++)
    into[at + i] = Math.round(WHOLE * Math.max(-1, Math.min(1, samples[i]!)));
}
