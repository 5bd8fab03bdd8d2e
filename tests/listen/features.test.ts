import { describe, expect, test } from "vitest";
import { createSpectrum } from "../../src/listen/fft.ts";
import { createMel, framesOf, hann, hertzOf, melFilters, melOf, SOUND } from "../../src/listen/mel.ts";
import { mono, to16k } from "../../src/listen/resample.ts";
import { tone } from "./sounds.ts";

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
    createSpectrum(size).power(frame, power);
    for (const [k, value] of byDefinition(frame).entries()) expect(power[k]).toBeCloseTo(value, 8);
  });

  test("keeps the energy of the frame (Parseval)", () => {
    const frame = Float64Array.from({ length: 2048 }, (_, i) => Math.sin(i * 0.37) * Math.cos(i * i * 0.01));
    const power = new Float64Array(1025);
    createSpectrum(2048).power(frame, power);
    const energy = frame.reduce((sum, value) => sum + value * value, 0);
    const inBins = (2 * power.reduce((a, b) => a + b, 0) - power[0]! - power[1024]!) / 2048;
    expect(inBins).toBeCloseTo(energy, 6);
  });

  test("refuses lengths that are no powers of two", () => {
    expect(() => createSpectrum(1000)).toThrow(RangeError);
  });
});

describe("the filters", () => {
  test("stand on the mel scale, on which 1000 Hz are 1000 mels", () => {
    // [lit: O'Shaughnessy 1987: m = 2595 log10(1 + f / 700), made so that 1000 Hz are 1000 mels]
    expect(melOf(1000)).toBeCloseTo(1000, 1);
    expect(melOf(0)).toBe(0);
    expect(hertzOf(melOf(440))).toBeCloseTo(440, 9);
  });

  test("reach from 30 to 8000 Hz, and every bin between weighs 1 in all", () => {
    const filters = melFilters();
    expect(filters).toHaveLength(229);
    const sums = new Float64Array(1025);
    for (const { from, weights } of filters) for (const [i, w] of weights.entries()) sums[from + i]! += w;
    const middle = (i: number) => hertzOf(melOf(30) + ((melOf(8000) - melOf(30)) * (i + 1)) / 230);
    for (let bin = Math.ceil((middle(0) * 2048) / 16000); bin <= (middle(228) * 2048) / 16000; bin++)
      expect(sums[bin]).toBeCloseTo(1, 9);
  });
});

describe("the log-mel frames", () => {
  test("are one at the start and one each hundredth of a second", () => {
    expect(framesOf(16_000)).toBe(101);
    expect(SOUND.rate / SOUND.hop).toBe(100);
  });

  test("the window is a periodic Hann: nothing at its start, one in its middle", () => {
    const window = hann(2048);
    expect(window[0]).toBe(0);
    expect(window[1024]).toBe(1);
    expect(window[1]).toBeCloseTo(window[2047]!, 12);
  });

  test.each([27.5 * 4, 440, 1760, 4186])("%f Hz is loudest in the filter around it", (hertz) => {
    const mel = createMel().frames(tone(hertz, 1), 50, 51);
    const loudest = mel.indexOf(Math.max(...mel));
    const centre = hertzOf(melOf(30) + ((melOf(8000) - melOf(30)) * (loudest + 1)) / 230);
    expect(Math.abs(centre - hertz)).toBeLessThan(Math.max(16_000 / 2048, hertz * 0.02));
  });

  test("a click is loudest in the frame centred on it", () => {
    const samples = new Float32Array(16_000);
    samples[8000] = 1;
    const mel = createMel().frames(samples, 40, 61);
    const sums = Array.from({ length: 21 }, (_, t) =>
      mel.subarray(t * 229, (t + 1) * 229).reduce((a, b) => a + b, 0),
    );
    expect(sums.indexOf(Math.max(...sums))).toBe(10);
  });

  test("are the same in pieces", () => {
    const samples = tone(300, 2);
    const whole = createMel().frames(samples, 0, 150);
    const piece = createMel().frames(samples, 100, 150);
    expect(piece).toEqual(whole.subarray(100 * 229));
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

  test("channels are mixed to their mean", () => {
    expect(mono([Float32Array.of(1, 0.5), Float32Array.of(0, 0.5)])).toEqual(Float32Array.of(0.5, 0.5));
  });
});
