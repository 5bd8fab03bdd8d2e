/** Where the take is in the form: chooses how to find out, and says what was chosen. */
import { quartersPerBar } from "../chart/index.ts";
import type { Chart } from "../chart/types.ts";
import type { Take, TimeKnot, TimeMap, Warning } from "../take/index.ts";
import { checkTimeMap, Problem, secondsOfTick, takeSeconds } from "../take/index.ts";
import { checkAnchors, pinsOf, throughAnchors } from "./anchors.ts";
import { SKIPPED } from "./beam.ts";
import { withBeatsDoubt } from "./beats-doubt.ts";
import { byFreely, guessed, twoHanded } from "./by-freely.ts";
import { byLattice, countInOf, type LatticeFound } from "./by-lattice.ts";
import { fileGrid } from "./click.ts";
import { barSigns, rubatoSureness, sureness } from "./confidence.ts";
import { type Events, takeEvents } from "./events.ts";
import { barsLeftOut, barsPlayed, barTimes, countChoruses, pickupOf, placeOf, tempoOf } from "./form.ts";
import type { FreeTables } from "./free/free-model.ts";
import { FREE_TABLES } from "./free/free-tables.ts";
import { withMeterDoubt } from "./meter-doubt.ts";
import { CELLS } from "./metre.ts";
import { sourceGrid } from "./notated.ts";
import { isSteady } from "./on-beats.ts";
import { rubatoKnots } from "./rubato.ts";
import { type Track, track } from "./track.ts";
import { chorusesApart, doubtedBy, sameTempo } from "./two-maps.ts";
import type { Alignment, AlignmentMethod, AlignOptions, NoteHand } from "./types.ts";

/**
 * Nats for each event below which no beat is believed in: what a beat explains is then less than what the price of
 * its freedom takes (set on simulated takes).
 */
const BEAT_HEARD = -0.15;

/**
 * Lays a take over a chart.
 *
 * Notation is read by its bars. Otherwise beat and place are followed together (`track`); a constant beat is called
 * a click, and where no beat is heard the chart is followed by its harmony alone (`rubatoKnots`). The user may
 * force a method, give the tempo, and pin moments to the chart; the map then goes through every pin.
 *
 * @param hands parallel to `take.notes`
 * @param tables of free playing; a report reads a take by those of others
 * @throws Problem `no-notes` for a take without notes; `anchors-cross`, `anchor-outside` for pins that cannot hold
 */
export function align(
  take: Take,
  chart: Chart,
  hands: readonly NoteHand[],
  options: AlignOptions,
  tables: FreeTables = FREE_TABLES,
): Alignment {
  if (take.notes.length === 0) {
    throw new Problem("no-notes", "The take has no notes", null, "Choose a file in which notes are played");
  }
  const anchors = checkAnchors(options.anchors, chart, takeSeconds(take));
  const sought = find(take, chart, hands, { ...options, anchors }, tables);
  const found = anchors.length > 0 ? sought : withMeterDoubt(sought, take, chart, hands);
  const map = throughAnchors(found.map, anchors, chart);
  const bars = found.bars ?? barsPlayed(map, take.notes, chart);
  const choruses = countChoruses(bars, chart.bars.length);
  // A bar or two of rest at the beginning are bars of the form; more were never played.
  const leftOut = barsLeftOut(map, take.notes, chart);
  const from = found.method === "notated" || leftOut < 2 ? 0 : Math.min(leftOut, bars - 1);
  const times = barTimes(map, chart, choruses, { from, to: bars }, found.confidence);
  return {
    method: anchors.length > 0 && found.method !== "rubato" ? "anchored" : found.method,
    confidence: times.reduce((sum, bar) => sum + bar.confidence, 0) / times.length,
    choruses,
    pickupBeats: pickupOf(map, take.notes, hands),
    tempo: found.method === "rubato" ? null : tempoOf(times, chart),
    map,
    bars: times,
    anchors,
    warnings: found.warnings,
    alternatives: found.alternatives ?? [],
    ...(found.irregular === undefined || found.irregular.length === 0 ? {} : { irregular: found.irregular }),
    ...(found.clicked === true && anchors.length === 0 ? { clicked: true } : {}),
  };
}

interface Found {
  readonly method: AlignmentMethod;
  readonly map: TimeMap;
  /** Bars played from the first bar line of the form; null to count them on the map. */
  readonly bars: number | null;
  readonly confidence: (bar: number) => number;
  readonly warnings: readonly Warning[];
  readonly alternatives?: Alignment["alternatives"];
  readonly irregular?: Alignment["irregular"];
  /** True where the map is the file's own grid. */
  readonly clicked?: boolean;
}

function find(
  take: Take,
  chart: Chart,
  hands: readonly NoteHand[],
  options: AlignOptions,
  tables: FreeTables,
): Found {
  if (options.method === "notated" || (options.method === "auto" && take.format === "musicxml")) {
    return fromNotation(take, chart, hands, options);
  }
  const laid =
    options.method === "rubato" || take.notes.length < 3 ? null : byLattice(take, chart, hands, options);
  const weighed = (found: Found) => withBeatsDoubt(found, take, chart, hands, options);
  const steady = laid !== null && (laid.onBeat === null || isSteady(laid.onBeat)) ? fromLattice(laid) : null;
  // Of two hands that play freely the lattice may keep to beats of which it says itself that they are none.
  const isRefused = steady?.method === "rubato" && laid?.onBeat !== null && twoHanded(take, hands);
  if (steady !== null && !isRefused) return weighed(steady);
  const events = takeEvents(take.notes, hands, chart);
  if (options.method === "rubato" || events.count < 3) return fromHarmony(take, events, chart, options);
  const hear = () => byTracker(take, chart, laid, events, options);
  if (options.method === "click" || !twoHanded(take, hands)) return weighed(hear());
  // What was told does not change whether the take is played freely: it is asked as if nothing had been.
  const open = { ...options, tempo: null, anchors: [] };
  const heard = options.tempo !== null || options.anchors.length > 0 ? null : (steady ?? hear());
  const other = heard ?? byTracker(take, chart, byLattice(take, chart, hands, open), events, open);
  const freely = byFreely(take, chart, hands, options, other, tables);
  if (freely !== null) return freely;
  if (heard === null) return hear();
  if (heard.method === "rubato") return heard;
  return weighed({ ...heard, confidence: guessed(chart, heard.confidence) });
}

/** Follows the beat, and weighs it against what the lattice laid where that is not steady. */
function byTracker(
  take: Take,
  chart: Chart,
  laid: LatticeFound | null,
  events: Events,
  options: AlignOptions,
): Found {
  const followed = track(events, chart, { tempo: options.tempo, pins: pinsOf(options.anchors, chart) });
  const tracked = followed.knots.length >= 2;
  const heard = tracked && followed.path.score / events.count > BEAT_HEARD;
  if (laid !== null) {
    if (heard && chorusesApart(laid.map, followed.knots, chart)) return fromLattice(laid);
    if (heard && sameTempo(laid.map, followed.knots)) {
      return doubtedBy(fromBeat(take, events, followed, chart, options), laid, quartersPerBar(chart.meter));
    }
    if (heard || laid.onBeat!.share >= LOOSELY || options.tempo !== null || options.anchors.length > 0) {
      return fromLattice(laid);
    }
    return fromHarmony(take, events, chart, options);
  }
  if (!tracked) return fromHarmony(take, events, chart, options);
  if (options.method === "auto" && !heard && options.tempo === null && options.anchors.length === 0) {
    return fromHarmony(take, events, chart, options);
  }
  return fromBeat(take, events, followed, chart, options);
}

/**
 * Share of comping strokes on the lattice's beats below which no beat is believed in that the tracker does not hear (see
 * `isSteady`).
 */
const LOOSELY = 0.6;

/** The lattice calls a click only what the file states. */
function fromLattice(laid: LatticeFound): Found {
  return { ...laid, clicked: laid.method === "click", map: checkTimeMap(laid.map) };
}

function fromNotation(take: Take, chart: Chart, hands: readonly NoteHand[], { lines }: AlignOptions): Found {
  const grid = sourceGrid(take, chart);
  // A MIDI file has no bar numbers: the bars before the form, a count-in, are found by its notes.
  const countIn = take.bars.length > 0 ? { quarters: 0, sure: 1 } : countInOf(take, chart, hands, lines);
  const knots: TimeKnot[] = grid.pieces.map(({ tick, position }) => ({
    seconds: secondsOfTick(take, tick),
    position: position - countIn.quarters,
  }));
  const last = grid.pieces.at(-1)!;
  const end = Math.max(last.tick, ...take.notes.map((note) => note.tick + note.ticks)) + take.ticksPerQuarter;
  if (take.bars.length === 0) {
    for (const { tick, seconds } of take.tempos) {
      if (tick > last.tick && tick < end) {
        knots.push({ seconds, position: (tick - last.tick) * last.rate - countIn.quarters });
      }
    }
  }
  knots.push({
    seconds: secondsOfTick(take, end),
    position: last.position + (end - last.tick) * last.rate - countIn.quarters,
  });
  return {
    method: "notated",
    map: checkTimeMap(knots),
    bars: countIn.quarters === 0 ? grid.bars : null,
    confidence: () => countIn.sure,
    warnings: grid.warnings,
  };
}

function fromBeat(take: Take, events: Events, followed: Track, chart: Chart, options: AlignOptions): Found {
  const constant =
    options.method === "click" ||
    (options.method === "auto" && followed.constant && options.anchors.length === 0);
  const { map, clicked } = constant ? clickMap(take, followed) : { map: followed.knots, clicked: false };
  return {
    method: constant ? "click" : "tracked",
    map: checkTimeMap(map),
    clicked,
    bars: null,
    confidence: beatConfidence(events, followed),
    warnings: options.anchors.length > 0 ? [] : beginningWarnings(followed, chart),
  };
}

/** Says so when the take was heard to begin anywhere but at the form's first bar or shortly before. */
function beginningWarnings(followed: Track, chart: Chart): Warning[] {
  const first = followed.path.cells.find((cell) => cell !== SKIPPED);
  if (first === undefined) return [];
  const { bar } = followed.metre;
  const todo = "if that is wrong, pin a bar line or tap the beat";
  if (first < -2 * bar) {
    const message = `The form was heard to begin after an introduction of ${Math.ceil(-first / bar)} bars; ${todo}`;
    return [{ code: "long-intro", message, where: null }];
  }
  if (first < 2 * bar) return [];
  const place = placeOf(first / CELLS, chart, 1);
  const message = `The take was heard to begin inside the form, in bar ${place.bar}; ${todo}`;
  return [{ code: "begins-inside-form", message, where: `bar ${place.bar}` }];
}

function beatConfidence(events: Events, followed: Track): (bar: number) => number {
  let last = 0;
  for (const cell of followed.path.cells) last = Math.max(last, cell);
  const signs = barSigns(events, followed, Math.floor(last / followed.metre.bar) + 2);
  return (bar) => sureness(signs[Math.max(0, Math.min(signs.length - 1, bar))]!);
}

/** The file's own grid where the take was played to it, else the straight line through the sightings. */
function clickMap(take: Take, followed: Track): { readonly map: TimeMap; readonly clicked: boolean } {
  const sightings = followed.stretches.flat();
  const grid = fileGrid(take, sightings, followed.metre.compound ? 0.5 : 1);
  if (grid !== null) return { map: grid, clicked: take.tempoStated };
  const { start, period } = followed.line;
  const end = Math.max(takeSeconds(take), start + period) + 1;
  const map = [
    { seconds: start, position: 0 },
    { seconds: end, position: (end - start) / period },
  ];
  return { map, clicked: false };
}

function fromHarmony(take: Take, events: Events, chart: Chart, options: AlignOptions): Found {
  const { knots, clear } = rubatoKnots(events, chart, pinsOf(options.anchors, chart), takeSeconds(take));
  return {
    method: "rubato",
    map: checkTimeMap(knots),
    bars: null,
    confidence: rubatoSureness(
      knots.map((knot) => knot.position),
      clear,
      quartersPerBar(chart.meter),
    ),
    warnings: [
      {
        code: "no-beat",
        message:
          options.method === "rubato"
            ? "The take was followed by its harmony alone, as asked: beats, timing and swing are not given"
            : "No steady beat was found; the chart was followed by its harmony alone, and beats, timing and swing are not given",
        where: null,
      },
    ],
  };
}
