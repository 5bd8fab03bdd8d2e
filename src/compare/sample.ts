import type { AccountMotif, AccountNote, AccountPlacement, Analysis, RegisterSummary } from "../account.ts";
import { degreeName } from "../chart/index.ts";
import { fingerName } from "../words/index.ts";
import { notesInRuns } from "./choruses.ts";
import { registerOf } from "./register.ts";

/** A phrase with what is compared of it. Phrases are the units of all statistics here. */
export interface Unit {
  readonly notes: readonly AccountNote[];
  /** Seconds from its first onset to the end of its last note. */
  readonly seconds: number;
  /** Silence after it, seconds. */
  readonly restSeconds: number;
  /** Length with the rest after it, in bars of the chart; null in rubato. */
  readonly bars: number | null;
  readonly inRuns: number;
  readonly inMotifs: number;
  readonly placed: number;
  readonly shifts: number;
  /** Beat-upbeat ratios of its beats. */
  readonly swing: readonly number[];
  /** Milliseconds early - or late + against the grid. */
  readonly timing: readonly number[];
  /** Name of the placement of each note that has one. */
  readonly placements: readonly string[];
  readonly answers: boolean;
}

/** One side of a comparison: a chorus, a take, all takes of a player, a model solo, a class. */
export interface Sample {
  readonly name: string;
  readonly units: readonly Unit[];
  readonly notes: readonly AccountNote[];
  readonly motifs: readonly AccountMotif[];
  readonly register: RegisterSummary;
  /** Bars of the chart, for laying the same bar of several sides over one another. */
  readonly chart: Analysis["chart"];
  readonly bars: Analysis["alignment"]["bars"];
}

/**
 * A take, or one chorus of it, as a side. Notes outside any phrase form none of the units, but are counted in
 * `notes`. @throws RangeError when there is no such chorus
 */
export function sampleOf(analysis: Analysis, options: { name?: string; chorus?: number } = {}): Sample {
  const { chorus } = options;
  if (chorus !== undefined && !(chorus >= 1 && chorus <= analysis.alignment.choruses)) {
    throw new RangeError(`there is no chorus ${chorus}: the take has ${analysis.alignment.choruses}`);
  }
  const inside = (place: { chorus: number }) => chorus === undefined || place.chorus === chorus;
  const solo = analysis.notes.filter((note) => note.solo);
  const notes = solo.filter(inside);
  const title = analysis.source.title ?? analysis.source.name;
  const motifs = analysis.motifs
    .map((motif) => ({ ...motif, occurrences: motif.occurrences.filter(inside) }))
    .filter((motif) => motif.occurrences.length > 0);
  return {
    name: options.name ?? (chorus === undefined ? title : `${title}, chorus ${chorus}`),
    units: unitsOf(analysis, solo).filter((unit) => inside(unit.notes[0]!)),
    notes,
    motifs,
    register: registerOf(notes.map((note) => note.pitch)),
    chart: analysis.chart,
    bars: analysis.alignment.bars.filter(inside),
  };
}

/** Several takes as one side: a player's term, a class. The chart is the first one's. @throws RangeError for none */
export function poolSamples(name: string, sides: readonly Sample[]): Sample {
  const first = sides[0];
  if (first === undefined) throw new RangeError("a side needs at least one take");
  return {
    name,
    units: sides.flatMap((side) => side.units),
    notes: sides.flatMap((side) => side.notes),
    motifs: sides.flatMap((side) => side.motifs),
    register: registerOf(sides.flatMap((side) => side.notes.map((note) => note.pitch))),
    chart: first.chart,
    bars: sides.flatMap((side) => side.bars),
  };
}

/** "third-and-steps, index finger on the fifth": a placement as it is named on any chord. */
function placementName(placement: Pick<AccountPlacement, "shape" | "anchorFinger" | "anchorDegree">): string {
  const place =
    placement.anchorDegree === null ? "off the chord" : `on the ${degreeName(placement.anchorDegree)}`;
  return `${placement.shape}, ${fingerName(placement.anchorFinger)} ${place}`;
}

function unitsOf(analysis: Analysis, solo: readonly AccountNote[]): Unit[] {
  const place = new Map(solo.map((note, i) => [note.id, i]));
  const running = notesInRuns(solo, analysis.runs);
  const named = new Map(analysis.placements.map((one) => [one.id, placementName(one)]));
  const bars = new Map(analysis.alignment.bars.map((bar) => [`${bar.chorus}:${bar.bar}`, bar]));
  return analysis.phrases.flatMap((phrase) => {
    const first = place.get(phrase.firstNote);
    const last = place.get(phrase.lastNote);
    if (first === undefined || last === undefined) return [];
    const notes = solo.slice(first, last + 1);
    const placements = notes.flatMap((note) => (note.placement === null ? [] : [note.placement]));
    const barBeats = (analysis.chart.meter.beats * 4) / analysis.chart.meter.unit;
    const rest = phrase.restBeats === null ? 0 : phrase.restBeats / barBeats;
    return [
      {
        notes,
        seconds: phrase.seconds,
        restSeconds: phrase.restSeconds,
        bars: phrase.bars === null ? null : phrase.bars + rest,
        inRuns: notes.filter((note) => running.has(note.id)).length,
        inMotifs: notes.filter((note) => note.motifs.length > 0).length,
        placed: placements.length,
        shifts: placements.filter((id, i) => i > 0 && id !== placements[i - 1]).length,
        swing: swingOf(notes, bars, analysis.chart.meter),
        // Against a beat that was drawn through the notes themselves nothing is early or late.
        timing: analysis.rhythm.untimed === undefined ? timingOf(notes, bars, barBeats) : [],
        placements: placements.map((id) => named.get(id) ?? "?"),
        answers: phrase.answers !== null,
      },
    ];
  });
}

type Bars = ReadonlyMap<string, { readonly start: number; readonly end: number }>;

/** Ratio of every beat that holds exactly one note, on its second half; straight and triplet beats alike. */
function swingOf(notes: readonly AccountNote[], bars: Bars, meter: { beats: number }): number[] {
  const ratios: number[] = [];
  const inBeat = new Map<string, AccountNote[]>();
  for (const note of notes) {
    if (note.beat === null || Math.abs(note.beat - Math.round(note.beat)) < 0.01) continue;
    const key = `${note.chorus}:${note.bar}:${Math.floor(note.beat)}`;
    inBeat.set(key, [...(inBeat.get(key) ?? []), note]);
  }
  for (const [key, [note, ...others]] of inBeat) {
    if (note === undefined || others.length > 0 || Math.abs((note.beat! % 1) - 0.5) > 0.01) continue;
    const bar = bars.get(key.slice(0, key.lastIndexOf(":")));
    if (bar === undefined) continue;
    const beat = (bar.end - bar.start) / meter.beats;
    const inside = (note.onset - bar.start) / beat - (Math.floor(note.beat!) - 1);
    if (inside > 0.3 && inside < 0.9) ratios.push(inside / (1 - inside));
  }
  return ratios;
}

function timingOf(notes: readonly AccountNote[], bars: Bars, barBeats: number): number[] {
  return notes.flatMap((note) => {
    const bar = bars.get(`${note.chorus}:${note.bar}`);
    if (note.timing === null || bar === undefined) return [];
    return [(1000 * note.timing * (bar.end - bar.start)) / barBeats];
  });
}
