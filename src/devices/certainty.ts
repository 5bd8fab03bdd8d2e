/** How sure a device is where its rule fits. */
import type { DeviceName } from "./names.ts";

/**
 * Readings of each device that were drawn at random from improvised solos and held against its definition, note by
 * note: how many were what they are called, and how many were read. `npm run report -- devices draw SEED` draws others.
 * A reading counts as right when a teacher would put the device's name to just these notes; where that is arguable, it
 * counts as wrong. [practice]
 */
const READINGS: Readonly<Record<DeviceName, { readonly right: number; readonly read: number }>> = {
  "side-slip": { right: 7, read: 9 },
  "third to flat ninth": { right: 12, read: 12 },
  "tritone outline": { right: 2, read: 2 },
  "upper structure": { right: 11, read: 11 },
  "other pentatonic": { right: 11, read: 11 },
  "added passing note": { right: 8, read: 8 },
  sequence: { right: 11, read: 11 },
  pedal: { right: 9, read: 9 },
  "chain of approaches": { right: 11, read: 12 },
  "blues turn": { right: 12, read: 12 },
  "answering end": { right: 11, read: 11 },
};

/**
 * Certainty of a device, 0 to 1: the share right to be expected of further readings, by the rule of succession
 * (Laplace): the mean over all shares that the readings allow, none preferred beforehand. Few readings make it modest
 * and none makes it one half. Its place on the chart is another matter and is not counted here.
 */
export function certaintyOf(name: DeviceName): number {
  const { right, read } = READINGS[name];
  return Math.round((100 * (right + 1)) / (read + 2)) / 100;
}
