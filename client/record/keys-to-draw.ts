/** Which keys are drawn where there is so much room, and which of them a finger means. No page is needed for it. */
import { isBlackKey } from "../../src/pitch/index.ts";
import type { Keyboard } from "../draw/keyboard.ts";

/** Target size of WCAG 2.2 (2.5.8): pixels across that a finger finds. */
export const FINGER = 24;

/** White keys are at least this wide, so that the areas of two black neighbours do not meet. */
const WHITE = 27;

/** From the whole of what a line needs to its middle octave: C2 to C7, C2 to C6, C3 to C6, C4 to C6, C4 to G5, C4 to C5. */
const RANGES = [
  { low: 36, high: 96 },
  { low: 36, high: 84 },
  { low: 48, high: 84 },
  { low: 60, high: 84 },
  { low: 60, high: 79 },
  { low: 60, high: 72 },
] as const;

export interface KeyRange {
  readonly low: number;
  readonly high: number;
}

/** The most keys of which each is wide enough; `octaves` moves them where not all are drawn. */
export function keysFor(pixels: number, octaves = 0): KeyRange {
  const range = RANGES.find((one) => whites(one) * WHITE <= pixels) ?? RANGES.at(-1)!;
  const by = 12 * octaves;
  const { low, high } = RANGES[0];
  const moved = Math.max(low - range.low, Math.min(high - range.high, by));
  // Only whole octaves: a keyboard that begins on C is read at a glance.
  const whole = Math.trunc(moved / 12) * 12;
  return { low: range.low + whole, high: range.high + whole };
}

/** Whether keys lie beyond those that are drawn, so that they can be moved. */
export const isPart = (range: KeyRange): boolean => range.high - range.low < RANGES[0].high - RANGES[0].low;

const whites = ({ low, high }: KeyRange): number => {
  let count = 0;
  for (let pitch = low; pitch <= high; pitch++) if (!isBlackKey(pitch)) count++;
  return count;
};

/**
 * The key that is meant by a touch: black keys are narrower than a finger and take what is beside them.
 *
 * @param x pixels from the left edge of the drawing
 * @param down 0 at the upper edge of the keys to 1 at the lower one
 * @param blackPart part of a white key's length that a black one has
 */
export function keyAt(keys: Keyboard, x: number, down: number, blackPart: number): number | null {
  const pitches = Array.from({ length: keys.high - keys.low + 1 }, (_, i) => keys.low + i);
  if (down <= blackPart) {
    const black = pitches.find(
      (pitch) =>
        isBlackKey(pitch) && Math.abs(keys.centre(pitch) - x) <= Math.max(FINGER, keys.keyWidth(pitch)) / 2,
    );
    if (black !== undefined) return black;
  }
  return (
    pitches.find(
      (pitch) => !isBlackKey(pitch) && x >= keys.left(pitch) && x < keys.left(pitch) + keys.keyWidth(pitch),
    ) ?? null
  );
}
