/**
 * What the network listens to: a log-mel spectrogram. Mono sound at 16 kHz; frames of 2048 samples under a periodic
 * Hann window, 160 samples apart, each centred on its time (the sound is continued by zeros at both ends); power
 * spectrum; triangular filters evenly spaced on the mel scale; logarithm, scaled.
 * The numbers are those of the recipe that the network was trained by (corpus/listening).
 */
import { createSpectrum } from "./fft.ts";

export const SOUND = {
  /** Samples a second. */
  rate: 16_000,
  /** Samples of a frame. */
  frame: 2048,
  /** Samples from frame to frame. */
  hop: 160,
  bands: 229,
  /** Lowest and highest frequency of the filters, in Hz. */
  lowest: 30,
  highest: 8000,
} as const;

/** Frames a second. */
export const FRAMES_A_SECOND = SOUND.rate / SOUND.hop;

/** A filter weighs the bins from `from` on; all others are nothing to it. */
export interface MelFilter {
  readonly from: number;
  readonly weights: Float64Array;
}

/** Mels of a frequency in Hz: 2595 log10(1 + f / 700) [lit: O'Shaughnessy 1987]. */
export function melOf(hertz: number): number {
  return 2595 * Math.log10(1 + hertz / 700);
}

export function hertzOf(mel: number): number {
  return 700 * (10 ** (mel / 2595) - 1);
}

/** Triangles of height 1 whose corners lie evenly on the mel scale; neighbours overlap by half. */
export function melFilters({ rate, frame, bands, lowest, highest }: typeof SOUND = SOUND): MelFilter[] {
  const [low, high] = [melOf(lowest), melOf(highest)];
  const corner = (i: number) => hertzOf(low + ((high - low) * i) / (bands + 1));
  return Array.from({ length: bands }, (_, band) => {
    const [left, middle, right] = [corner(band), corner(band + 1), corner(band + 2)];
    const from = Math.max(0, Math.ceil((left * frame) / rate));
    const to = Math.min(frame / 2, Math.floor((right * frame) / rate));
    const weights = Float64Array.from({ length: Math.max(0, to - from + 1) }, (_, i) => {
      const hertz = ((from + i) * rate) / frame;
      return Math.max(0, Math.min((hertz - left) / (middle - left), (right - hertz) / (right - middle)));
    });
    return { from, weights };
  });
}

/** The window that a frame is seen through. */
export function hann(length: number): Float64Array {
  return Float64Array.from({ length }, (_, i) => 0.5 - 0.5 * Math.cos((2 * Math.PI * i) / length));
}

/** Frames of so many samples: one at the start, then one each hop. */
export function framesOf(samples: number): number {
  return Math.floor(samples / SOUND.hop) + 1;
}

export interface MelMaker {
  /**
   * Log-mel values of the frames `from` to `to` (without it), frame after frame.
   *
   * @param samples mono, 16 kHz, -1 to 1
   */
  frames(samples: Float32Array, from: number, to: number): Float32Array;
}

/** Least power that is told from nothing, and the straight line that the logarithm is laid on. */
const FLOOR = 1e-5;
const SCALE = { shift: 4, divide: 4 } as const;

export function createMel(): MelMaker {
  const { frame: size, hop, bands } = SOUND;
  const spectrum = createSpectrum(size);
  const window = hann(size);
  const filters = melFilters();
  const frame = new Float64Array(size);
  const power = new Float64Array(size / 2 + 1);
  return {
    frames(samples, from, to) {
      const made = new Float32Array((to - from) * bands);
      for (let t = from; t < to; t++) {
        const start = t * hop - size / 2;
        for (let i = 0; i < size; i++) frame[i] = (samples[start + i] ?? 0) * window[i]!;
        spectrum.power(frame, power);
        for (let band = 0; band < bands; band++) {
          const { from: bin, weights } = filters[band]!;
          let sum = 0;
          for (let i = 0; i < weights.length; i++) sum += weights[i]! * power[bin + i]!;
          made[(t - from) * bands + band] = (Math.log(sum + FLOOR) + SCALE.shift) / SCALE.divide;
        }
      }
      return made;
    },
  };
}
