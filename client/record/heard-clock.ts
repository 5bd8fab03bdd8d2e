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
