/** Where in the form a take may begin, and at what tempo: what the bar pointer starts from. */
import { mod } from "../pitch/index.ts";
import type { TrackedPath } from "./beam.ts";
import { SKIPPED } from "./beam.ts";
import { type Events, harmonyAt } from "./events.ts";
import { CELLS, type Metre, PLACE } from "./metre.ts";
import type { Pin, TrackerStart } from "./tracker-model.ts";

type Places = TrackerStart["places"];

/** The usual beginnings: mostly at the first bar line or in a pickup of up to two bars. */
export function usualPlaces(metre: Metre): Places {
  const places: { cell: number; cost: number }[] = [];
  for (let cell = -2 * metre.bar; cell <= metre.bar; cell++) {
    const place = metre.place[mod(cell, metre.bar)]!;
    if (place === PLACE.none) continue;
    const beats = Math.abs(cell) / CELLS;
    const rare = place === PLACE.triplet || place === PLACE.sixteenth ? 2 : 0;
    places.push({ cell, cost: rare + (cell === 0 ? 0 : cell < 0 ? 1.5 + 0.3 * beats : 1.2 + 0.4 * beats) });
  }
  return places;
}

/** Bars that an introduction may have [practice: two, four or eight]. */
export const LONGEST_INTRO = 8;
/** What an introduction costs, and each of its bars (nats). */
const INTRO_COST = 5;
const INTRO_BAR = 0.2;
/** What it costs to begin inside the form (nats): hardly anybody does. */
const INSIDE_COST = 8;
/** Bars at which sections begin begin more takes than others. */
const NO_SECTION = 1.5;

/** Unusual beginnings: after a longer introduction, or inside the form. */
export function unusualPlaces(metre: Metre, form: number): Places {
  const places: { cell: number; cost: number }[] = [];
  for (let cell = -LONGEST_INTRO * metre.bar; cell < form; cell++) {
    if (cell >= -2 * metre.bar && cell <= metre.bar) continue;
    const place = metre.place[mod(cell, metre.bar)]!;
    if (place !== PLACE.beat && place !== PLACE.offBeat && place !== PLACE.eighth) continue;
    const within = mod(cell, metre.bar);
    const late = within === 0 ? 0 : 1 + (0.3 * within) / CELLS;
    const section = mod(cell, 4 * metre.bar) < metre.bar ? 0 : NO_SECTION;
    const price = cell < 0 ? INTRO_COST - (INTRO_BAR * cell) / metre.bar : INSIDE_COST;
    places.push({ cell, cost: price + late + section });
  }
  return places;
}

/** Beginnings near the first pin, for takes of which the user knows where they are. */
export function pinnedPlaces(metre: Metre, first: Pin, from: number): Places {
  const places: { cell: number; cost: number }[] = [];
  // No tempo is known yet: any beat from which the pin can be reached between the slowest and the fastest.
  const seconds = Math.max(0, first.seconds - from);
  const [low, high] = [
    first.cell - 5 * seconds * CELLS - metre.bar,
    first.cell - 0.6 * seconds * CELLS + metre.bar,
  ];
  for (let cell = Math.ceil(low / metre.beat) * metre.beat; cell <= high; cell += metre.beat) {
    if (cell >= -2 * metre.bar && cell <= metre.bar) continue;
    places.push({ cell, cost: 4 });
  }
  return places;
}

/** Tempos to try: all that people play, or those near a given one. */
export function usualPeriods(tempo: number | null): Pick<TrackerStart, "periods" | "periodSpread"> {
  if (tempo !== null) {
    const seconds = 60 / tempo;
    return { periods: [0.97, 1, 1.03].map((f) => ({ seconds: seconds * f, cost: 0 })), periodSpread: 0.015 };
  }
  const periods: { seconds: number; cost: number }[] = [];
  for (let t = 45; t < 305; t *= 1.035) {
    periods.push({ seconds: 60 / t, cost: Math.log(t / 130) ** 2 / (2 * 0.7 ** 2) });
  }
  return { periods, periodSpread: 0.02 };
}

/**
 * Nats that the harmony of a take would gain by lying whole bars elsewhere in the form, at the best such place;
 * below 0 where it lies best as it is. A form of one bar, or of one chord, gains nothing.
 */
export function gainElsewhere(events: Events, metre: Metre, path: TrackedPath): number {
  const form = events.stretchAt.length;
  const bars = Math.round(form / metre.bar);
  let best = Number.NEGATIVE_INFINITY;
  for (let shift = 1; shift < bars; shift++) {
    let gain = 0;
    for (let e = 0; e < events.count; e++) {
      const cell = path.cells[e]!;
      if (cell === SKIPPED) continue;
      gain += harmonyAt(events, e, mod(cell + shift * metre.bar, form)) - harmonyAt(events, e, cell);
    }
    best = Math.max(best, gain);
  }
  return best;
}
