/** Two maps of one take held against each other. */
import { chorusBeats } from "../chart/index.ts";
import type { Chart } from "../chart/types.ts";
import { positionAt, secondsAt, type TimeMap } from "../take/index.ts";

/** Of two maps that differ on a bar line by half a beat or more, one is wrong; where they agree, either vouches for it. */
const EITHER = 0.5;

interface SureMap {
  readonly map: TimeMap;
  readonly confidence: (bar: number) => number;
}

/**
 * A map with what another one says of its bars in it.
 *
 * @param length quarter notes of a bar
 */
export function doubtedBy<T extends SureMap>(found: T, other: SureMap, length: number): T {
  return {
    ...found,
    confidence: (bar: number) => {
      const at = secondsAt(found.map, bar * length);
      const beat = secondsAt(found.map, bar * length + 1) - at;
      const agreed = Math.abs(secondsAt(other.map, bar * length) - at) < beat / 2;
      const sure = found.confidence(bar);
      return agreed ? Math.max(sure, other.confidence(bar)) : EITHER * sure;
    },
  };
}

/** Ratio within which two maps have one tempo. */
const SAME_TEMPO = 1.08;

export function sameTempo(a: TimeMap, b: TimeMap): boolean {
  const pace = (map: TimeMap) => {
    const [first, last] = [map[0]!, map.at(-1)!];
    return (last.position - first.position) / (last.seconds - first.seconds);
  };
  const ratio = pace(a) / pace(b);
  return Math.max(ratio, 1 / ratio) < SAME_TEMPO;
}

/** Whether two maps differ by whole choruses alone: the lattice knows introductions better than the tracker does. */
export function chorusesApart(a: TimeMap, b: TimeMap, chart: Chart): boolean {
  const form = chorusBeats(chart);
  const [from, to] = [a[0]!.seconds, a.at(-1)!.seconds];
  const apart = [0.25, 0.5, 0.75].map((share) => {
    const at = from + share * (to - from);
    return (positionAt(a, at) - positionAt(b, at)) / form;
  });
  const whole = Math.round(apart[1]!);
  return whole !== 0 && apart.every((choruses) => Math.abs(choruses - whole) * form < 0.5);
}
