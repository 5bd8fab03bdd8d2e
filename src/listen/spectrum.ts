/**
 * What the network listens to: how much sound there is in each third of a semitone, a hundred times a second, as
 * seen through a short window, which tells when, and through a long one, which tells keys apart. Frames
 * of 2048 and of 8192 samples under a periodic Hann window, each centred on its time (the sound is continued by zeros at both
 * ends); power spectrum; triangular filters in equal musical steps; logarithm. The definition is that of the recipe
 * (corpus/listening/README.md).
 */
import { createTransform } from "./fft.ts";
import { type Samples, type Sound, soundOf } from "./samples.ts";

export const SOUND = {
  /** Samples a second. */
  rate: 16_000,
  /** Samples of a frame, of the short window and of the long one. */
  windows: [2048, 8192],
  /** Samples from frame to frame. */
  hop: 160,
  /** Bands of one window; a frame has those of the short one, then those of the long one. */
  bands: 294,
  bandsAnOctave: 36,
  /** Hz of the second band, on which the piano's lowest key stands: A0. */
  lowestKey: 27.5,
} as const;

/** Frames a second. */
export const FRAMES_A_SECOND = SOUND.rate / SOUND.hop;

/** Numbers of a frame. */
export const FRAME_WIDTH = SOUND.windows.length * SOUND.bands;

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
export function bandFilters(size: number = SOUND.windows[0]): Band[] {
  /** Hz between two bins of the transform. */
  const bin = SOUND.rate / size;
  const step = 2 ** (1 / SOUND.bandsAnOctave);
  return Array.from({ length: SOUND.bands }, (_, band) => {
    const middle = bandMiddle(band);
    const below = Math.max(middle - middle / step, bin);
    const above = Math.max(middle * step - middle, bin);
    const from = Math.max(0, Math.ceil((middle - below) / bin));
    const to = Math.min(size / 2, Math.floor((middle + above) / bin));
    const weights = Float64Array.from({ length: Math.max(0, to - from + 1) }, (_, i) => {
      const hertz = (from + i) * bin;
      return Math.max(0, hertz < middle ? 1 - (middle - hertz) / below : 1 - (hertz - middle) / above);
    });
    return { from, weights };
  });
}

/** The window that a frame is seen through, scaled so that a sine of amplitude a has the power a squared. */
export function frameWindow(length: number = SOUND.windows[0]): Float64Array {
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
  const views = SOUND.windows.map(createView);
  const longest = Math.max(...SOUND.windows);
  return {
    frames(sound, from, to, gain) {
      const first = Math.max(0, from * SOUND.hop - longest / 2);
      const samples = soundOf(sound).part(first, Math.min(sound.length, to * SOUND.hop + longest / 2));
      const made = new Float32Array((to - from) * FRAME_WIDTH);
      for (let t = from; t < to; t++)
        for (const [i, view] of views.entries())
          view(samples, t * SOUND.hop - first, gain, made, (t - from) * FRAME_WIDTH + i * SOUND.bands);
      return made;
    },
  };
}

/** Puts the bands of the frame around a sample into `made` from a place on. */
type View = (samples: Samples, centre: number, gain: number, made: Float32Array, at: number) => void;

function createView(size: number): View {
  const transform = createTransform(size);
  const window = frameWindow(size);
  const filters = bandFilters(size);
  const frame = new Float64Array(size);
  const power = new Float64Array(size / 2 + 1);
  const span = -Math.log(FLOOR);
  return (samples, centre, gain, made, at) => {
    const start = centre - size / 2;
    const end = Math.min(size, samples.length - start);
    if (start < 0 || end < size) frame.fill(0);
    for (let i = Math.max(0, -start); i < end; i++) frame[i] = samples[start + i]! * gain * window[i]!;
    transform.power(frame, power);
    for (let band = 0; band < filters.length; band++) {
      const { from: bin, weights } = filters[band]!;
      let sum = 0;
      for (let i = 0; i < weights.length; i++) sum += weights[i]! * power[bin + i]!;
      made[at + band] = 1 + Math.log(sum + FLOOR) / span;
    }
  };
}
