/** A take that was played to the click of its own recorder: the file's bars and tempos are then the exact grid. */
import type { Take, TimeKnot, TimeMap } from "../take/index.ts";
import { takeSeconds } from "../take/index.ts";
import type { Sighting } from "./smooth.ts";

/** Quarter-note beats by which onsets may lie beside the file's grid, in the middle and at their spread. */
const BESIDE = 0.06;
const SPREAD = 0.09;

/**
 * The file's own grid, moved by whole pulses so that the sightings' places are met, or null when the take does not
 * keep to it.
 *
 * @param pulse quarter-note beats by which the form may begin off the file's first tick
 */
export function fileGrid(take: Take, sightings: readonly Sighting[], pulse: number): TimeMap | null {
  let mark = 0;
  const beside = sightings.map(({ seconds, place }) => {
    while (mark + 1 < take.tempos.length && take.tempos[mark + 1]!.seconds <= seconds) mark++;
    const from = take.tempos[mark]!;
    return (
      place - from.tick / take.ticksPerQuarter - ((seconds - from.seconds) * from.quartersPerMinute) / 60
    );
  });
  const sorted = [...beside].sort((a, b) => a - b);
  const middle = sorted[sorted.length >> 1]!;
  const shift = Math.round(middle / pulse) * pulse;
  const spread = sorted[Math.floor(sorted.length * 0.85)]! - sorted[Math.floor(sorted.length * 0.15)]!;
  if (Math.abs(middle - shift) > BESIDE || spread > 2 * SPREAD) return null;
  // The grid must hold from beginning to end, not only in the middle.
  const third = Math.max(1, Math.floor(beside.length / 3));
  for (const part of [beside.slice(0, third), beside.slice(-third)]) {
    const own = [...part].sort((a, b) => a - b)[part.length >> 1]!;
    if (Math.abs(own - shift) > BESIDE) return null;
  }
  return fileMap(take, shift);
}

/** The file's own clock, its first tick at position `shift`, to a second after the take's end. */
export function fileMap(take: Take, shift: number): TimeMap {
  const knots: TimeKnot[] = take.tempos.map((tempo) => ({
    seconds: tempo.seconds,
    position: tempo.tick / take.ticksPerQuarter + shift,
  }));
  const last = knots.at(-1)!;
  const end = Math.max(takeSeconds(take), last.seconds) + 1;
  const rate = take.tempos.at(-1)!.quartersPerMinute / 60;
  return [...knots, { seconds: end, position: last.position + (end - last.seconds) * rate }];
}
