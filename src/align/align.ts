/** Where the take is in the form: chooses how to find out, and says what was chosen. */
import type { Chart } from "../chart/types.ts";
import type { Take, TimeKnot, TimeMap, Warning } from "../take/index.ts";
import { checkTimeMap, Problem, takeSeconds } from "../take/index.ts";
import { filePositions, findShift, gridFit } from "./click.ts";
import { takeEvents } from "./events.ts";
import { barsPlayed, barTimes, countChoruses, pickupOf, tempoOf } from "./form.ts";
import { secondsOfTick, sourceGrid } from "./notated.ts";
import type { Alignment, AlignmentMethod, AlignOptions, NoteHand } from "./types.ts";

/**
 * Lays a take over a chart.
 *
 * @param hands parallel to `take.notes`
 * @throws Problem `no-notes` for a take without notes
 */
export function align(
  take: Take,
  chart: Chart,
  hands: readonly NoteHand[],
  options: AlignOptions,
): Alignment {
  if (take.notes.length === 0) {
    throw new Problem("no-notes", "The take has no notes", null, "Choose a file in which notes are played");
  }
  const notated = options.method === "notated" || (options.method === "auto" && take.format === "musicxml");
  return notated ? alignNotated(take, chart, hands) : alignToFile(take, chart, hands);
}

function alignNotated(take: Take, chart: Chart, hands: readonly NoteHand[]): Alignment {
  const grid = sourceGrid(take, chart);
  const knots: TimeKnot[] = grid.pieces.map(({ tick, position }) => ({
    seconds: secondsOfTick(take, tick),
    position,
  }));
  return finish(take, chart, hands, {
    method: "notated",
    map: closeMap(knots, take),
    bars: grid.bars,
    confidence: () => 1,
    warnings: grid.warnings,
  });
}

function alignToFile(take: Take, chart: Chart, hands: readonly NoteHand[]): Alignment {
  const events = takeEvents(take.notes, hands, chart);
  const positions = filePositions(take, events);
  const { shift, lead } = findShift(events, positions, chart, 3);
  const knots = take.tempos.map((mark) => ({
    seconds: mark.seconds,
    position: mark.tick / take.ticksPerQuarter + shift,
  }));
  const map = closeMap(knots, take);
  const sure = Math.min(gridFit(positions), 1 - Math.exp(-lead / 3));
  return finish(take, chart, hands, {
    method: "click",
    map,
    bars: barsPlayed(map, take.notes, chart),
    confidence: () => sure,
    warnings: [],
  });
}

interface Found {
  readonly method: AlignmentMethod;
  readonly map: TimeMap;
  /** Bars played from the first bar line of the form. */
  readonly bars: number;
  readonly confidence: (bar: number) => number;
  readonly warnings: readonly Warning[];
}

function finish(take: Take, chart: Chart, hands: readonly NoteHand[], found: Found): Alignment {
  const choruses = countChoruses(found.bars, chart.bars.length);
  const bars = barTimes(found.map, chart, choruses, found.bars, found.confidence);
  const confidence = bars.reduce((sum, bar) => sum + bar.confidence, 0) / bars.length;
  return {
    method: found.method,
    confidence,
    choruses,
    pickupBeats: pickupOf(found.map, take.notes, hands),
    tempo: found.method === "rubato" ? null : tempoOf(bars, chart),
    map: found.map,
    bars,
    anchors: [],
    warnings: found.warnings,
  };
}

/** Adds a last knot so that the last tempo runs on to the end of the take. */
function closeMap(knots: readonly TimeKnot[], take: Take): TimeMap {
  const last = knots.at(-1)!;
  const quartersPerMinute = take.tempos.at(-1)!.quartersPerMinute;
  const end = Math.max(takeSeconds(take), last.seconds) + 1;
  const position = last.position + ((end - last.seconds) * quartersPerMinute) / 60;
  return checkTimeMap([...knots, { seconds: end, position }]);
}
