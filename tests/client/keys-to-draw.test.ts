import { describe, expect, it } from "vitest";
import { layKeyboard } from "../../client/draw/keyboard.ts";
import { FINGER, isPart, keyAt, keysFor } from "../../client/record/keys-to-draw.ts";
import { isBlackKey } from "../../src/pitch/index.ts";

/** Pixels between the edges of a sheet on a phone, tablets and a screen. */
const WIDTHS = [288, 330, 390, 700, 930, 1300];

describe("the keys of the record page", () => {
  // WCAG 2.2, success criterion 2.5.8: a target is at least 24 by 24 CSS pixels.
  it.each(WIDTHS)("are found by a finger, black ones too, on %s pixels", (width) => {
    const { low, high } = keysFor(width);
    const keys = layKeyboard(low, high, width);
    const areas = new Map<number | null, number>();
    for (let x = 0.5; x < width; x++) {
      const pitch = keyAt(keys, x, 0.3, 0.62);
      if (pitch !== null && isBlackKey(pitch)) areas.set(pitch, (areas.get(pitch) ?? 0) + 1);
    }
    for (let x = 0.5; x < width; x++) {
      const pitch = keyAt(keys, x, 0.8, 0.62);
      areas.set(pitch, (areas.get(pitch) ?? 0) + 1);
    }
    expect(areas.size).toBe(high - low + 1);
    for (const [pitch, across] of areas) expect(across, String(pitch)).toBeGreaterThanOrEqual(FINGER - 1);
  });

  it("are as many as there is room for, from C to C, and can be moved by octaves to the ends of the piano part", () => {
    expect(keysFor(1300)).toEqual({ low: 36, high: 96 });
    expect(isPart(keysFor(1300))).toBe(false);
    const phone = keysFor(340);
    expect(phone.low).toBe(60);
    expect(isPart(phone)).toBe(true);
    expect(keysFor(340, -1)).toEqual({ low: 48, high: 67 });
    expect(keysFor(340, -9).low).toBe(36);
    expect(keysFor(340, 9).high).toBeLessThanOrEqual(96);
  });

  it("mean the white key where the black one beside it ends", () => {
    const keys = layKeyboard(60, 72, 280);
    expect(keyAt(keys, keys.centre(61), 0.3, 0.62)).toBe(61);
    expect(keyAt(keys, keys.centre(61) - 2, 0.9, 0.62)).toBe(60);
    expect(keyAt(keys, 500, 0.9, 0.62)).toBeNull();
  });
});
