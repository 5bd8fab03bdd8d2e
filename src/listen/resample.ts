/**
 * Sound of any rate as mono sound of 16 kHz: a windowed sinc, cut off below half of the lower rate, so that nothing
 * above it comes back as a tone that was not there.
 */
import { SOUND } from "./spectrum.ts";

/** Zero crossings of the sinc on each side; the Kaiser window below keeps mirrored tones under -70 dB with them. */
const CROSSINGS = 32;
/** Shape of the Kaiser window, for about 75 dB. [lit: Kaiser 1974, 0.1102 (A - 8.7)] */
const BETA = 0.1102 * (75 - 8.7);
/** Share of half the lower rate that is kept whole; the slope of the filter lies between it and the half. */
const KEPT = 0.94;

/** The channels mixed to one. */
export function mono(channels: readonly Float32Array[]): Float32Array {
  const first = channels[0] ?? new Float32Array(0);
  if (channels.length < 2) return first;
  const mixed = new Float32Array(first.length);
  for (const channel of channels)
    for (let i = 0; i < mixed.length; i++) mixed[i] = mixed[i]! + channel[i]! / channels.length;
  return mixed;
}

/**
 * @param samples mono, at `rate` samples a second (a whole number)
 * @returns the same sound at 16 kHz, as long in seconds
 */
export function to16k(samples: Float32Array, rate: number): Float32Array {
  if (rate === SOUND.rate) return samples;
  const shared = divisor(SOUND.rate, rate);
  const [up, down] = [SOUND.rate / shared, rate / shared];
  const cutoff = KEPT * Math.min(1, SOUND.rate / rate);
  const reach = Math.ceil(CROSSINGS / cutoff);
  const taps = 2 * reach;
  const phases = new Map<number, Float32Array>();
  const made = new Float32Array(Math.floor((samples.length * up) / down));
  for (let i = 0; i < made.length; i++) {
    const place = i * down;
    const whole = Math.floor(place / up);
    const phase = place % up;
    let weights = phases.get(phase);
    if (weights === undefined) {
      weights = sinc(phase / up, cutoff, reach, taps);
      phases.set(phase, weights);
    }
    const start = whole - reach + 1;
    const from = Math.max(0, -start);
    const to = Math.min(taps, samples.length - start);
    let sum = 0;
    for (let k = from; k < to; k++) sum += weights[k]! * samples[start + k]!;
    made[i] = sum;
  }
  return made;
}

/** Weights of the samples around a place that lies `part` of a sample after one; they sum to 1. */
function sinc(part: number, cutoff: number, reach: number, taps: number): Float32Array {
  const weights = Float64Array.from({ length: taps }, (_, k) => {
    const x = k - reach + 1 - part;
    const edge = x / reach;
    if (Math.abs(edge) >= 1) return 0;
    const angle = Math.PI * cutoff * x;
    return (x === 0 ? 1 : Math.sin(angle) / angle) * bessel(BETA * Math.sqrt(1 - edge * edge));
  });
  const sum = weights.reduce((a, b) => a + b, 0);
  return Float32Array.from(weights, (weight) => weight / sum);
}

/** The modified Bessel function of the first kind of order 0, by its series. */
function bessel(x: number): number {
  let [sum, term] = [1, 1];
  for (let k = 1; term > 1e-12 * sum; k++) {
    term *= (x / (2 * k)) ** 2;
    sum += term;
  }
  return sum;
}

function divisor(a: number, b: number): number {
  return b === 0 ? a : divisor(b, a % b);
}
