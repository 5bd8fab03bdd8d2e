/** Mono sound at 16 kHz: numbers from -1 to 1, or whole ones of 16 bits, which hold half an hour in half the memory. */
export type Samples = Float32Array | Int16Array;

const WHOLE = 32_767;

/** What stands for full scale in such an array. */
export function fullScale(samples: Samples): number {
  return samples instanceof Int16Array ? WHOLE : 1;
}

/** Puts samples from -1 to 1 into their place; what is louder is cut. */
export function putSamples(into: Int16Array, samples: Float32Array, at: number): void {
  for (let i = 0; i < samples.length; i++)
    into[at + i] = Math.round(WHOLE * Math.max(-1, Math.min(1, samples[i]!)));
}
