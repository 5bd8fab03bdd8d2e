/**
 * What the network listens to: how much sound there is in each third of a semitone, a hundred times a second. Frames
 * of 2048 samples under a periodic Hann window, each centred on its time (the sound is continued by zeros at both
 * ends); power spectrum; triangular filters in equal musical steps; logarithm. The definition is that of the recipe
 * (corpus/listening/README.md).
 */
import { createTransform } from "./fft.ts";
import { type Samples, type Sound, soundOf } from "./samples.ts";

export const SOUND = {
  /** Samples a second. */
  rate: 16_000,
  /** Samples of a frame. */
  frame: 2048,
  /** Samples from frame to frame. */
  hop: 160,
  bands: 294,
  bandsAnOctave: 36,
  /** Hz of the second band, on which the piano's lowest key stands: A0. */
  lowestKey: 27.5,
} as const;

/** Frames a second. */
export const FRAMES_A_SECOND = SOUND.rate / SOUND.hop;

/** Hz between two bins of the transform. */
const BIN = SOUND.rate / SOUND.frame;

/** Power that is told from nothing: -70 dB of a sine of full scale, whose power is 1. */
const FLOOR = 1e-7;

/** A filter weighs the bins from `from` on; all others are nothing to it. */
export interface Band {
  readonly from: number;
  readonly weights: Float64Array;
}

/** Middle of a band in Hz. Band 3 i + 1 is the fundamental of key i, 0 the lowest. */
export function bandMiddle(band: number): number {
  return SOUND.lowestKey * 2 ** ((band - 1) / SOUND.bandsAnOctave);
}

/** Triangles of height 1 that fall to nothing at the neighbours' middles, but reach over one bin at least. */
export function bandFilters(): Band[] {
  const step = 2 ** (1 / SOUND.bandsAnOctave);
  return Array.from({ length: SOUND.bands }, (_, band) => {
    const middle = bandMiddle(band);
    const below = Math.max(middle - middle / step, BIN);
    const above = Math.max(middle * step - middle, BIN);
    const from = Math.max(0, Math.ceil((middle - below) / BIN));
    const to = Math.min(SOUND.frame / 2, Math.floor((middle + above) / BIN));
    const weights = Float64Array.from({ length: Math.max(0, to - from + 1) }, (_, i) => {
      const hertz = (from + i) * BIN;
      return Math.max(0, hertz < middle ? 1 - (middle - hertz) / below : 1 - (hertz - middle) / above);
    });
    return { from, weights };
  });
}

/** The window that a frame is seen through, scaled so that a sine of amplitude a has the power a squared. */
export function frameWindow(length: number = SOUND.frame): Float64Array {
  return Float64Array.from(
    { length },
    (_, i) => (0.5 - 0.5 * Math.cos((2 * Math.PI * i) / length)) / (length / 4),
  );
}

/** Frames of so many samples: one at the start, then one each hop. */
export function framesOf(samples: number): number {
  return Math.floor(samples / SOUND.hop) + 1;
}

export interface SpectrumMaker {
  /**
   * The bands of the frames `from` to `to` (without it), frame after frame; 0 for silence, 1 for a sine of full scale.
   *
   * @param sound mono, 16 kHz
   * @param gain what its samples are multiplied by
   */
  frames(sound: Samples | Sound, from: number, to: number, gain: number): Float32Array;
}

export function createSpectrum(): SpectrumMaker {
  const { frame: size, hop, bands } = SOUND;
  const transform = createTransform(size);
  const window = frameWindow();
  const filters = bandFilters();
  const frame = new Float64Array(size);
  const power = new Float64Array(size / 2 + 1);
  const span = -Math.log(FLOOR);
  return {
    frames(sound, from, to, gain) {
      const first = Math.max(0, from * hop - size / 2);
      const samples = soundOf(sound).part(first, Math.min(sound.length, to * hop + size / 2));
      const made = new Float32Array((to - from) * bands);
      for (let t = from; t < to; t++) {
        const start = t * hop - size / 2;
        for (let i = 0; i < size; i++) frame[i] = (samples[start + i - first] ?? 0) * gain * window[i]!;
        transform.power(frame, power);
        for (let band = 0; band < bands; band++) {
          const { from: bin, weights } = filters[band]!;
          let sum = 0;
          for (let i = 0; i < weights.length; i++) sum += weights[i]! * power[bin + i]!;
          made[(t - from) * bands + band] = 1 + Math.log(sum + FLOOR) / span;
        }
      }
      return made;
    },
  };
}
