/** Our bands against those of the recipe that the network was trained by, which other hands wrote in another language. */
import { existsSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { createSpectrum, framesOf } from "../../src/listen/spectrum.ts";

const FILE = fileURLToPath(new URL("../../corpus/listening/reference.json", import.meta.url));

interface Reference {
  readonly frames: number;
  readonly bands: number;
  readonly rows: readonly { readonly frame: number; readonly values: readonly number[] }[];
}

/** The sound that `reference_sound` in corpus/listening/spectrum.py makes. */
function referenceSound(): Float32Array {
  return Float32Array.from({ length: 16_000 }, (_, n) => {
    const t = n / 16_000;
    const late = Math.max(t - 0.3, 0);
    const low = 0.2 * Math.sin(2 * Math.PI * 55 * t) * Math.exp(-2 * t);
    const middle = t >= 0.3 ? 0.4 * Math.sin(2 * Math.PI * 440 * late) * Math.exp(-4 * late) : 0;
    const high = 0.1 * Math.sin(2 * Math.PI * 3520 * t) * Math.exp(-6 * t);
    const noise = 0.002 * (((n * 7919) % 1013) / 1013 - 0.5);
    return low + middle + high + noise;
  });
}

test.skipIf(!existsSync(FILE))("the bands are those of the recipe (corpus/listening/reference.json)", () => {
  const reference = JSON.parse(readFileSync(FILE, "utf8")) as Reference;
  const sound = referenceSound();
  expect(framesOf(sound.length)).toBe(reference.frames);
  for (const { frame, values } of reference.rows) {
    const bands = createSpectrum().frames(sound, frame, frame + 1, 1);
    expect(bands).toHaveLength(reference.bands);
    for (const [band, value] of values.entries()) expect(Math.abs(bands[band]! - value)).toBeLessThan(2e-4);
  }
});
