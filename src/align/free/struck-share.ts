/** How many beats of a map are struck. */
import { positionAt, secondsAt, type TimeMap } from "../../take/index.ts";
import type { FreeReading } from "./lay-freely.ts";

/** Seconds by which a stroke may lie beside the beat that it falls with. */
const WITH_BEAT = 0.05;

/** Share of the beats of a map, from the take's first stroke to its last, that a stroke falls with: 0 to 1. */
export function struckShare(
  { moments: { strokes }, form: { quarters } }: Pick<FreeReading, "moments" | "form">,
  map: TimeMap,
): number {
  const { time, count } = strokes;
  const first = Math.ceil((positionAt(map, time[0]! - WITH_BEAT) - 1e-6) / quarters);
  const last = Math.floor((positionAt(map, time[count - 1]! + WITH_BEAT) + 1e-6) / quarters);
  let struck = 0;
  let e = 0;
  for (let k = first; k <= last; k++) {
    const seconds = secondsAt(map, k * quarters);
    while (e < count && time[e]! < seconds - WITH_BEAT) e++;
    if (e < count && time[e]! <= seconds + WITH_BEAT) struck++;
  }
  return struck / Math.max(1, last - first + 1);
}
