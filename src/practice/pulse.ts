import type { Meter } from "../chart/index.ts";

/**
 * The beat that is felt, in quarter notes: a dotted quarter in 6/8, 9/8 and 12/8, else a quarter note.
 * @example pulseOf({ beats: 6, unit: 8 }) // 1.5
 */
export function pulseOf({ beats, unit }: Meter): number {
  return unit === 8 && beats > 3 && beats % 3 === 0 ? 1.5 : 1;
}
