/**
 * Where a note stands on the chart.
 *
 * Two units are told apart throughout: a *beat of the bar* is counted from 1 in the meter's own unit (beat 4 of 6/8
 * is the fourth eighth), while a *chart position* is a number of quarter-note beats since the first bar line of the
 * first chorus; pickup notes have negative positions.
 */

/** A point of the monotone map between the two clocks. */
export interface TimeKnot {
  /** Performed seconds. */
  readonly seconds: number;
  /** Chart position in quarter-note beats. */
  readonly position: number;
}

/**
 * The monotone map between performed seconds and chart position in quarter-note beats: straight lines between
 * the knots, the first and last line continued outwards. At least two knots, both columns strictly rising.
 */
export type TimeMap = readonly TimeKnot[];

/** Chart position (quarter-note beats) of a moment in seconds. */
export function positionAt(map: TimeMap, seconds: number): number {
  const k = segment(map, (knot) => knot.seconds <= seconds);
  const [a, b] = [map[k]!, map[k + 1]!];
  return a.position + ((seconds - a.seconds) * (b.position - a.position)) / (b.seconds - a.seconds);
}

/** Moment in seconds of a chart position (quarter-note beats). */
export function secondsAt(map: TimeMap, position: number): number {
  const k = segment(map, (knot) => knot.position <= position);
  const [a, b] = [map[k]!, map[k + 1]!];
  return a.seconds + ((position - a.position) * (b.seconds - a.seconds)) / (b.position - a.position);
}

/**
 * The same as `secondsAt` for one position after another: each is sought from the segment of the one before, so that
 * rising positions cost no search.
 */
export function secondsWalker(map: TimeMap): (position: number) => number {
  const last = map.length - 2;
  let k = 0;
  return (position) => {
    while (k < last && map[k + 1]!.position <= position) k++;
    while (k > 0 && map[k]!.position > position) k--;
    const [a, b] = [map[k]!, map[k + 1]!];
    return a.seconds + ((position - a.position) * (b.seconds - a.seconds)) / (b.position - a.position);
  };
}

/** Tempo in quarter notes a minute at a chart position. */
export function tempoAt(map: TimeMap, position: number): number {
  const k = segment(map, (knot) => knot.position <= position);
  const [a, b] = [map[k]!, map[k + 1]!];
  return (60 * (b.position - a.position)) / (b.seconds - a.seconds);
}

/** Throws a RangeError naming the first knot at which the map is not strictly rising. */
export function checkTimeMap(map: TimeMap): TimeMap {
  if (map.length < 2) throw new RangeError(`a time map needs two knots, not ${map.length}`);
  for (let i = 1; i < map.length; i++) {
    const [a, b] = [map[i - 1]!, map[i]!];
    if (!(b.seconds > a.seconds && b.position > a.position)) {
      throw new RangeError(
        `time map does not rise at knot ${i}: ${a.seconds} s, ${a.position} -> ${b.seconds} s, ${b.position}`,
      );
    }
  }
  return map;
}

function segment(map: TimeMap, before: (knot: TimeKnot) => boolean): number {
  let low = 0;
  let high = map.length - 2;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (before(map[middle]!)) low = middle;
    else high = middle - 1;
  }
  return low;
}
