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

/** Resamples sound that comes in parts. */
export interface Resampler {
  /** What can be told of the sound so far, that was not handed out before. */
  push(samples: Float32Array): Float32Array;
  /** The rest. */
  finish(): Float32Array;
}

/** @param rate samples a second of what comes in, a whole number */
export function createResampler(rate: number): Resampler {
  const shared = divisor(SOUND.rate, rate);
  const [up, down] = [SOUND.rate / shared, rate / shared];
  const cutoff = KEPT * Math.min(1, SOUND.rate / rate);
  const reach = Math.ceil(CROSSINGS / cutoff);
  const taps = 2 * reach;
  const phases = new Map<number, Float32Array>();
  let held = new Float32Array(0);
  /** Place in the whole sound of the first sample that is held, and of the next one to be made. */
  let start = 0;
  let next = 0;
  const phase = (part: number) => {
    const known = phases.get(part);
    if (known !== undefined) return known;
    const weights = sinc(part / up, cutoff, reach, taps);
    phases.set(part, weights);
    return weights;
  };
  const make = (to: number): Float32Array => {
    const made = new Float32Array(Math.max(0, to - next));
    for (let i = 0; i < made.length; i++) {
      const place = (next + i) * down;
      const weights = phase(place % up);
      const first = Math.floor(place / up) - reach + 1 - start;
      const end = Math.min(taps, held.length - first);
      let sum = 0;
      for (let k = Math.max(0, -first); k < end; k++) sum += weights[k]! * held[first + k]!;
      made[i] = sum;
    }
    next += made.length;
    return made;
  };
  return {
    push(samples) {
      if (rate === SOUND.rate) return samples;
      const spent = Math.max(0, Math.floor((next * down) / up) - reach - start);
      const joined = new Float32Array(held.length - spent + samples.length);
      joined.set(held.subarray(spent));
      joined.set(samples, held.length - spent);
      start += spent;
      held = joined;
      return make(Math.floor(((start + held.length - reach) * up) / down));
    },
    finish: () => make(Math.floor(((start + held.length) * up) / down)),
  };
}

/**
 * @param samples mono, at `rate` samples a second (a whole number)
 * @returns the same sound at 16 kHz, as long in seconds
 */
export function to16k(samples: Float32Array, rate: number): Float32Array {
  if (rate === SOUND.rate) return samples;
  const resampler = createResampler(rate);
  return joined([resampler.push(samples), resampler.finish()]);
}

/** Parts of a sound, one after the other. */
export function joined(parts: readonly Float32Array[]): Float32Array {
  const whole = new Float32Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
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
