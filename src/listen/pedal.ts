/** When the sustain pedal went down and came up, as far as it can be heard. */
import type { PedalMark } from "../take/index.ts";
import { FRAMES_A_SECOND } from "./spectrum.ts";

/** The pedal is down from here on, until it is less likely than that; between the two nothing changes. */
const LIKELY = { down: 0.6, up: 0.4 } as const;

/** @param pedal probability of each frame that the pedal is down */
export function pedalMarks(pedal: Float32Array): PedalMark[] {
  const marks: PedalMark[] = [];
  let down = false;
  for (const [frame, p] of pedal.entries()) {
    if (down ? p > LIKELY.up : p < LIKELY.down) continue;
    down = !down;
    marks.push({ seconds: frame / FRAMES_A_SECOND, down });
  }
  if (down) marks.push({ seconds: pedal.length / FRAMES_A_SECOND, down: false });
  return marks;
}
