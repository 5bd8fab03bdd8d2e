import { describe, expect, test } from "vitest";
import { createTransform } from "../../src/listen/fft.ts";
import { createResampler, joined, mono, to16k } from "../../src/listen/resample.ts";
import { fullScale, putSamples } from "../../src/listen/samples.ts";
import {
  bandFilters,
  bandMiddle,
  createSpectrum,
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
    expect(bandFilters()).toHaveLength(294);
  });

  test("weigh all that lies between the middles of wide ones with 1 in all", () => {
    const sums = new Float64Array(1025);
    const filters = bandFilters();
    for (const { from, weights } of filters) {
      expect(weights.length).toBeGreaterThan(0);
      for (const [i, w] of weights.entries()) sums[from + i]! += w;
    }
    // From 410 Hz on a third of a semitone is wider than a bin of 7.8 Hz.
    for (let bin = Math.ceil(410 / 7.8125); bin * 7.8125 < bandMiddle(293); bin++)
      expect(Math.abs(sums[bin]! - 1)).toBeLessThan(0.02);
  });
});

describe("the frames", () => {
  test("are one at the start and one each hundredth of a second", () => {
    expect(framesOf(16_000)).toBe(101);
    expect(SOUND.rate / SOUND.hop).toBe(100);
  });

  test("the window is a periodic Hann whose samples sum to 2", () => {
    const window = frameWindow();
    expect(window[0]).toBe(0);
    expect(window[1]).toBeCloseTo(window[2047]!, 12);
    expect(window.reduce((a, b) => a + b, 0)).toBeCloseTo(2, 9);
  });

  test("silence is 0, and a sine of full scale on a bin 1 in its band", () => {
    expect(
      createSpectrum()
        .frames(new Float32Array(16_000), 50, 51, 1)
        .every((v) => Math.abs(v) < 1e-6),
    ).toBe(true);
    const loud = createSpectrum().frames(tone(128 * 7.8125, 1), 50, 51, 1);
    expect(Math.max(...loud)).toBeCloseTo(1, 1);
  });

  test.each([110, 440, 1760, 4186])("%f Hz is loudest in the band around it", (hertz) => {
    const bands = createSpectrum().frames(tone(hertz, 1), 50, 51, 1);
    const centre = bandMiddle(bands.indexOf(Math.max(...bands)));
    expect(Math.abs(centre - hertz)).toBeLessThan(Math.max(7.9, hertz * 0.02));
  });

  test("a click is loudest in the frame centred on it", () => {
    const samples = new Float32Array(16_000);
    samples[8000] = 1;
    const bands = createSpectrum().frames(samples, 40, 61, 1);
    const sums = Array.from({ length: 21 }, (_, t) =>
      bands.subarray(t * 294, (t + 1) * 294).reduce((a, b) => a + b, 0),
    );
    expect(sums.indexOf(Math.max(...sums))).toBe(10);
  });

  test("are the same in pieces", () => {
    const samples = tone(300, 2);
    const whole = createSpectrum().frames(samples, 0, 150, 1);
    const piece = createSpectrum().frames(samples, 100, 150, 1);
    expect(piece).toEqual(whole.subarray(100 * 294));
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
