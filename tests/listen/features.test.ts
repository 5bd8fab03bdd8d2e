import { describe, expect, test } from "vitest";
import { createTransform } from "../../src/listen/fft.ts";
import { createResampler, joined, mono, to16k } from "../../src/listen/resample.ts";
import { fullScale, putSamples } from "../../src/listen/samples.ts";
import {
  bandFilters,
  bandMiddle,
  createSpectrum,
  FRAME_WIDTH,
  framesOf,
  frameWindow,
  SOUND,
} from "../../src/listen/spectrum.ts";
import { waveBytes } from "../../src/listen/wave.ts";
import { tone, wave } from "./sounds.ts";

/** Squared magnitudes by the definition of the discrete Fourier transform. [lit: any textbook of signal processing] */
function byDefinition(frame: Float64Array): number[] {
  return Array.from({ length: frame.length / 2 + 1 }, (_, k) => {
    let [real, imaginary] = [0, 0];
    for (let i = 0; i < frame.length; i++) {
      real += frame[i]! * Math.cos((2 * Math.PI * k * i) / frame.length);
      imaginary -= frame[i]! * Math.sin((2 * Math.PI * k * i) / frame.length);
    }
    return real * real + imaginary * imaginary;
  });
}

/** The bands of one frame, window by window. */
const windowsOf = (frame: Float32Array): Float32Array[] =>
  SOUND.windows.map((_, i) => frame.subarray(i * SOUND.bands, (i + 1) * SOUND.bands));

describe("the spectrum", () => {
  test.each([4, 8, 64, 512])("of %i samples is that of the definition", (size) => {
    const frame = Float64Array.from({ length: size }, (_, i) => Math.sin(i * i) + 0.3);
    const power = new Float64Array(size / 2 + 1);
    createTransform(size).power(frame, power);
    for (const [k, value] of byDefinition(frame).entries()) expect(power[k]).toBeCloseTo(value, 8);
  });

  test("keeps the energy of the frame (Parseval)", () => {
    const frame = Float64Array.from({ length: 2048 }, (_, i) => Math.sin(i * 0.37) * Math.cos(i * i * 0.01));
    const power = new Float64Array(1025);
    createTransform(2048).power(frame, power);
    const energy = frame.reduce((sum, value) => sum + value * value, 0);
    const inBins = (2 * power.reduce((a, b) => a + b, 0) - power[0]! - power[1024]!) / 2048;
    expect(inBins).toBeCloseTo(energy, 6);
  });

  test("refuses lengths that are no powers of two", () => {
    expect(() => createTransform(1000)).toThrow(RangeError);
  });
});

describe("the bands", () => {
  test("of sound held in whole numbers are those of the sound, from loud down to 40 dB below", () => {
    for (const level of [1, 0.01]) {
      const loud = tone(440, 1).map((value) => level * value);
      const held = new Int16Array(loud.length);
      putSamples(held, loud, 0);
      const [fine, whole] = [loud, held].map((samples) =>
        createSpectrum().frames(samples, 40, 60, 0.5 / level / fullScale(samples)),
      );
      // 16 bits are 98 dB [lit: 6.02 n + 1.76]; 0 to 1 are 70 dB, so at 40 dB below some of the quietest are lost.
      for (const [i, value] of fine!.entries()) expect(Math.abs(whole![i]! - value)).toBeLessThan(0.05);
    }
  });

  test("are thirds of semitones: every third one is a key of the piano in equal temperament", () => {
    // [lit: ISO 16: A4 is 440 Hz; equal temperament: MIDI number m is 440 * 2^((m - 69) / 12) Hz]
    for (let key = 0; key < 88; key++) {
      expect(bandMiddle(3 * key + 1)).toBeCloseTo(440 * 2 ** ((key + 21 - 69) / 12), 8);
    }
    for (const size of SOUND.windows) expect(bandFilters(size)).toHaveLength(294);
  });

  // A third of a semitone is wider than a bin of 7.8 Hz from 410 Hz on, than one of 1.95 Hz from 103 Hz on.
  test.each([
    { size: 2048, from: 410 },
    { size: 8192, from: 103 },
  ])("of $size samples weigh all between the middles of wide ones with 1 in all", ({ size, from: wide }) => {
    const bin = 16_000 / size;
    const sums = new Float64Array(size / 2 + 1);
    const filters = bandFilters(size);
    for (const { from, weights } of filters) {
      expect(weights.length).toBeGreaterThan(0);
      for (const [i, w] of weights.entries()) sums[from + i]! += w;
    }
    for (let k = Math.ceil(wide / bin); k * bin < bandMiddle(293); k++)
      expect(Math.abs(sums[k]! - 1)).toBeLessThan(0.02);
  });
});

describe("the frames", () => {
  test("are one at the start and one each hundredth of a second", () => {
    expect(framesOf(16_000)).toBe(101);
    expect(SOUND.rate / SOUND.hop).toBe(100);
  });

  test.each(SOUND.windows)("the window of %i is a periodic Hann whose samples sum to 2", (size) => {
    const window = frameWindow(size);
    expect(window[0]).toBe(0);
    expect(window[1]).toBeCloseTo(window[size - 1]!, 12);
    expect(window.reduce((a, b) => a + b, 0)).toBeCloseTo(2, 9);
  });

  test("silence is 0, and a sine of full scale on a bin 1 in its band, through both windows", () => {
    expect(
      createSpectrum()
        .frames(new Float32Array(16_000), 50, 51, 1)
        .every((v) => Math.abs(v) < 1e-6),
    ).toBe(true);
    for (const bands of windowsOf(createSpectrum().frames(tone(128 * 7.8125, 1), 50, 51, 1)))
      expect(Math.max(...bands)).toBeCloseTo(1, 1);
  });

  test.each([110, 440, 1760, 4186])("%f Hz is loudest in the band around it", (hertz) => {
    const bins = [7.9, 2];
    for (const [i, bands] of windowsOf(createSpectrum().frames(tone(hertz, 1), 50, 51, 1)).entries()) {
      const centre = bandMiddle(bands.indexOf(Math.max(...bands)));
      expect(Math.abs(centre - hertz)).toBeLessThan(Math.max(bins[i]!, hertz * 0.02));
    }
  });

  test("through the long window a semitone in the octave below middle C is two tones, through the short one one", () => {
    // [lit: the main lobe of a Hann window is four bins wide, 31 Hz and 8 Hz here; A3 is 220 Hz, its neighbour 13 Hz above]
    const [a, b] = [tone(220, 1), tone(220 * 2 ** (1 / 12), 1)];
    const both = a.map((value, i) => (value + b[i]!) / 2);
    // A3 is the key 36 of the piano, A0 being 0: its band and its neighbour's, and what lies between. They beat thirteen
    // times a second, so a short frame in which they are against each other shows a gap as well: the mean of many.
    const gaps = [0, 0];
    for (let frame = 40; frame < 60; frame++)
      for (const [i, bands] of windowsOf(createSpectrum().frames(both, frame, frame + 1, 1)).entries()) {
        const [low, one, other, high] = bands.subarray(3 * 36 + 1);
        gaps[i]! += (Math.min(low!, high!) - Math.min(one!, other!)) / 20;
      }
    expect(gaps[0]).toBeLessThan(0.05);
    expect(gaps[1]).toBeGreaterThan(0.1);
  });

  test("a click is loudest in the frame centred on it", () => {
    const samples = new Float32Array(16_000);
    samples[8000] = 1;
    const frames = Array.from({ length: 21 }, (_, t) =>
      windowsOf(createSpectrum().frames(samples, 40 + t, 41 + t, 1)),
    );
    for (const window of [0, 1]) {
      const sums = frames.map((bands) => bands[window]!.reduce((x, y) => x + y, 0));
      expect(sums.indexOf(Math.max(...sums))).toBe(10);
    }
  });

  test("are the same in pieces", () => {
    const samples = tone(300, 2);
    const whole = createSpectrum().frames(samples, 0, 150, 1);
    const piece = createSpectrum().frames(samples, 100, 150, 1);
    expect(piece).toEqual(whole.subarray(100 * FRAME_WIDTH));
  });
});

describe("a WAVE file", () => {
  test("of ours is that of the specification", () => {
    // The reader and the writer of the tests follow the specification by themselves.
    const sound = tone(440, 0.1);
    expect(waveBytes(sound, 16_000)).toEqual(wave(sound));
    expect(waveBytes(Float32Array.of(2, -2), 8000)).toEqual(wave(Float32Array.of(1, -1), 8000));
  });
});

describe("resampling to 16 kHz", () => {
  test.each([8000, 22_050, 44_100, 48_000, 96_000])(
    "keeps a tone of 1000 Hz at %i a second as it is",
    (rate) => {
      const made = to16k(tone(1000, 0.5, rate), rate);
      expect(made.length).toBe(8000);
      const expected = tone(1000, 0.5);
      for (let i = 1000; i < 7000; i++) expect(Math.abs(made[i]! - expected[i]!)).toBeLessThan(0.001);
    },
  );

  test.each([10_000, 15_000, 20_000])("a tone of %i Hz does not come back as another", (hertz) => {
    const made = to16k(tone(hertz, 0.5, 44_100), 44_100).subarray(1000, 7000);
    expect(Math.max(...made.map(Math.abs))).toBeLessThan(0.001);
  });

  test("of parts gives what resampling the whole does", () => {
    const whole = tone(700, 1, 44_100);
    const resampler = createResampler(44_100);
    const parts: Float32Array[] = [];
    for (let from = 0; from < whole.length; from += 1009)
      parts.push(resampler.push(whole.subarray(from, from + 1009)));
    parts.push(resampler.finish());
    expect(joined(parts)).toEqual(to16k(whole, 44_100));
  });

  test("channels are mixed to their mean", () => {
    expect(mono([Float32Array.of(1, 0.5), Float32Array.of(0, 0.5)])).toEqual(Float32Array.of(0.5, 0.5));
  });
});
