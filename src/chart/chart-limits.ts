/** How long a chart may be, and how often a passage may be played. */
import { chartProblem, type Place } from "./chart-place.ts";

export const MAX_CHART_BARS = 512;
const MAX_REPEATS = 32;

export function tooManyBars(place: Place | null) {
  return chartProblem(
    "chart-too-long",
    `The chart has more than ${MAX_CHART_BARS} bars`,
    place ?? { line: 1, bar: 0 },
    "Write one chorus only.",
  );
}

/** A number of times to play; null where none is written. */
export function readTimes(digits: string | null, place: Place): number | null {
  if (digits === null) return null;
  const times = Number(digits);
  if (times < 1 || times > MAX_REPEATS) {
    throw chartProblem(
      "repeat-sign",
      `A passage cannot be played ${times} times`,
      place,
      `Write a number from 1 to ${MAX_REPEATS}.`,
    );
  }
  return times;
}
