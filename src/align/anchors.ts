/** Moments that the user has pinned to places on the chart. The map goes through every one of them. */
import { quartersPerBar } from "../chart/meter.ts";
import type { Chart } from "../chart/types.ts";
import type { TimeKnot, TimeMap } from "../take/index.ts";
import { Problem, secondsAt } from "../take/index.ts";
import { CELLS } from "./metre.ts";
import type { Pin } from "./tracker-model.ts";
import type { Anchor, FormSize } from "./types.ts";

/** Chart position of an anchor in quarter-note beats. */
export function anchorPosition(anchor: Anchor, chart: FormSize): number {
  const bars = (anchor.chorus - 1) * chart.bars.length + anchor.bar - 1;
  return bars * quartersPerBar(chart.meter) + ((anchor.beat - 1) * 4) / chart.meter.unit;
}

/** How far beside the notes a moment may be pinned, in seconds: a long introduction or a last bar at rest. */
const MARGIN = 120;

/**
 * Anchors in order of time, doubles left out.
 *
 * @param length seconds from the start of the take to the end of its last note
 * @throws Problem `anchor-outside` for a place that no bar has; `anchors-cross` when a later moment is pinned to an
 *   earlier place
 */
export function checkAnchors(anchors: readonly Anchor[], chart: Chart, length: number): Anchor[] {
  const sorted = [...anchors].sort((a, b) => a.seconds - b.seconds);
  for (const { seconds, chorus, bar, beat } of sorted) {
    if (!(seconds >= -MARGIN && seconds <= length + MARGIN)) {
      throw new Problem(
        "anchor-outside",
        `The anchor at ${seconds} s is not in the take, whose last note ends at ${length.toFixed(2)} s`,
        "options.anchors.seconds",
        `Choose a moment from ${-MARGIN} s to ${Math.floor(length + MARGIN)} s`,
      );
    }
    if (chorus < 1 || !(beat >= 1 && beat < chart.meter.beats + 1)) {
      throw new Problem(
        "anchor-outside",
        `There is no beat ${beat} of bar ${bar} in chorus ${chorus}`,
        `chorus ${chorus}, bar ${bar}`,
        `Choose a chorus from 1 on and a beat from 1 to ${chart.meter.beats}`,
      );
    }
  }
  return sorted.filter((anchor, i) => {
    const before = sorted[i - 1];
    if (before === undefined) return true;
    const [a, b] = [anchorPosition(before, chart), anchorPosition(anchor, chart)];
    if (before.seconds === anchor.seconds && a === b) return false;
    if (a < b && before.seconds < anchor.seconds) return true;
    throw new Problem(
      "anchors-cross",
      `The anchor at ${anchor.seconds.toFixed(2)} s is not after the one at ${before.seconds.toFixed(2)} s on the chart`,
      `chorus ${anchor.chorus}, bar ${anchor.bar}`,
      "Remove one of the two",
    );
  });
}

export function pinsOf(anchors: readonly Anchor[], chart: Chart): Pin[] {
  return anchors.map((anchor) => ({
    seconds: anchor.seconds,
    cell: Math.round(anchorPosition(anchor, chart) * CELLS),
  }));
}

/**
 * Bends a map so that it goes through every anchor exactly: between two anchors the correction runs straight from
 * one to the other, before the first and after the last it is kept.
 */
export function throughAnchors(map: TimeMap, anchors: readonly Anchor[], chart: Chart): TimeMap {
  if (anchors.length === 0) return map;
  const points = anchors.map((anchor) => ({
    seconds: anchor.seconds,
    position: anchorPosition(anchor, chart),
  }));
  const errors = points.map((point) => point.seconds - secondsAt(map, point.position));
  const correction = (position: number): number => {
    if (position <= points[0]!.position) return errors[0]!;
    for (let i = 1; i < points.length; i++) {
      const [a, b] = [points[i - 1]!, points[i]!];
      if (position > b.position) continue;
      const share = (position - a.position) / (b.position - a.position);
      return errors[i - 1]! + share * (errors[i]! - errors[i - 1]!);
    }
    return errors.at(-1)!;
  };
  const bent = map
    .filter((knot) => points.every((point) => Math.abs(point.position - knot.position) > 1e-6))
    .map((knot) => ({ seconds: knot.seconds + correction(knot.position), position: knot.position }));
  return rising([...bent, ...points], points);
}

/** Sorted by place, with every knot left out that would make time stand still or run back; anchors stay. */
function rising(knots: readonly TimeKnot[], fixed: readonly TimeKnot[]): TimeKnot[] {
  const keep = new Set(fixed);
  const sorted = [...knots].sort((a, b) => a.position - b.position);
  const result: TimeKnot[] = [];
  for (const knot of sorted) {
    while (keep.has(knot) && result.length > 0 && result.at(-1)!.seconds >= knot.seconds - 1e-4) result.pop();
    const last = result.at(-1);
    if (last === undefined || (knot.seconds > last.seconds + 1e-4 && knot.position > last.position))
      result.push(knot);
  }
  if (result.length >= 2) return result;
  const only = result[0]!;
  return [only, { seconds: only.seconds + 0.5, position: only.position + 1 }];
}
