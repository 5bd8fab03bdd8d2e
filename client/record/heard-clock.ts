/** The two clocks of a page that plays: that of its sound, and that of its events. */

/**
 * When something that is given to the instrument for `seconds` of its clock is heard, in milliseconds of
 * `performance.now()`: with the way to the loudspeaker, as far as the browser knows it.
 */
export function momentOf(context: AudioContext, seconds: number): number {
  const { contextTime = 0, performanceTime = 0 } = context.getOutputTimestamp?.() ?? {};
  // Until something has been heard there is no such pair.
  if (contextTime > 0 && performanceTime > 0) return performanceTime + (seconds - contextTime) * 1000;
  return performance.now() + (seconds - context.currentTime + (context.outputLatency || 0)) * 1000;
}

/** Milliseconds between two looks, and looks at most: a browser that never knows is not waited for longer. */
const LOOK = 20;
const MOST_LOOKS = 25;

/** Waits until the browser knows when its sound is heard, which it does a moment after the first of it. */
export async function clockRuns(context: AudioContext): Promise<void> {
  for (let i = 0; i < MOST_LOOKS; i++) {
    if ((context.getOutputTimestamp?.().contextTime ?? 0) > 0) return;
    await new Promise((looked) => setTimeout(looked, LOOK));
  }
}
