/** Accounts of open solos as people placed them, so that what is said of them rests on no aligner of ours. */
import { optionsSchema } from "../../src/account.ts";
import { accountParts, type Setting } from "../../src/account-parts.ts";
import { drawnLines } from "../../src/drawn-lines.ts";
import {
  type DrawLine,
  type Facts,
  factsOf,
  type Judged,
  judgeFindings,
  type Null,
} from "../../src/findings/index.ts";
import { shapesNamed } from "../../src/hands/index.ts";
import { drawNotes } from "../../src/redraw.ts";
import { phraseEnds } from "../../src/rhythm/index.ts";
import { chartAccount } from "../../src/settle-chart.ts";
import type { Alignment, PlacedNote } from "../../src/take/index.ts";
import type { SoloOnChart } from "./chart-trials.ts";
import { placedByTruth } from "./open-placed.ts";

/** Places are told to a twelfth of a beat, fine enough for triplets and sixteenths. */
const GRID = 12;

/** What is said of a solo where people placed it, or of a copy of it; see `factsByTruth`. */
export function findingsByTruth(on: SoloOnChart, copy: Null | null, seed?: number): Judged {
  const { facts, lines } = factsByTruth(on, copy, seed);
  return judgeFindings(facts, lines);
}

/**
 * What the rules read of a solo where people placed it, or of the same solo with its notes drawn by chance, and the
 * draws that it is weighed against.
 *
 * @param copy null for the solo itself
 * @param seed of the copy; weighing draws with seed 0
 */
export function factsByTruth(
  on: SoloOnChart,
  copy: Null | null,
  seed = 4242,
): { readonly facts: Facts; readonly lines: DrawLine } {
  const { chart, spans } = on;
  const alignment = alignmentByTruth(on);
  const options = optionsSchema.parse({ chartConfirmed: true });
  const real = fullyPlaced(on);
  const solo =
    copy === null ? real : drawNotes({ solo: real, chart, spans, alignment }, copy, ownDraw(on), seed);
  const margins = new Map(solo.map((note) => [note.id, 1]));
  const setting = {
    chart,
    spans,
    alignment,
    margins,
    sources: new Map(solo.map(({ id }) => [id, id])),
    shapes: shapesNamed(options.shapes, options.ownShapes),
    options,
    take: { format: "midi", keys: [] },
  } as unknown as Setting;
  const cuts = phraseEnds(solo, alignment);
  const parts = accountParts(solo, setting, cuts);
  const account = {
    schemaVersion: 1,
    analysisVersion: "test",
    source: {
      name: on.solo.id,
      format: "midi",
      sha256: "0".repeat(64),
      notes: solo.length,
      seconds: 0,
      title: null,
      parts: [],
    },
    chart: chartAccount({ chart, source: "given", warnings: [] }, spans),
    options,
    alignment: { ...alignment, chartFit: null },
    ...parts,
    warnings: [],
  } as unknown as Parameters<typeof factsOf>[0];
  const facts = factsOf(account);
  return { facts, lines: drawnLines({ solo, chart, spans, alignment, parts, facts, seed: 0 }) };
}

/** A draw of its own for each solo: one row of random numbers for all would make their copies alike. */
function ownDraw({ solo }: SoloOnChart): number {
  return 1000 + Number(/\d+$/.exec(solo.id)?.[0] ?? 0);
}

function fullyPlaced(on: SoloOnChart): PlacedNote[] {
  const { chart, spans, solo, positions } = on;
  const bar = (chart.meter.beats * 4) / chart.meter.unit;
  const whole = bar * chart.bars.length;
  return placedByTruth(solo, positions, chart, spans).map((note, i): PlacedNote => {
    const position = Math.round(positions[i]! * GRID) / GRID;
    const tempo = beatsASecond(on, i);
    return {
      ...note,
      sounding: note.duration,
      velocity: 80,
      tick: i,
      ticks: 1,
      part: "t1",
      printed: null,
      hand: "right",
      solo: true,
      chorus: Math.max(1, Math.floor(position / whole) + 1),
      beat: 1 + ((((position % bar) + bar) % bar) * chart.meter.unit) / 4,
      position,
      beats: note.duration * tempo,
      timing: positions[i]! - position,
    };
  });
}

function beatsASecond({ solo }: SoloOnChart, i: number): number {
  const { beats } = solo;
  const k = Math.max(
    0,
    Math.min(
      beats.length - 2,
      beats.findLastIndex(({ seconds }) => seconds <= solo.notes[i]!.onset),
    ),
  );
  return 1 / (beats[k + 1]!.seconds - beats[k]!.seconds);
}

function alignmentByTruth({ solo, chart, positions }: SoloOnChart): Alignment {
  const quarters = 4 / chart.meter.unit;
  const bar = chart.meter.beats * quarters;
  const map = solo.beats.map(({ seconds, bar: number, beat }) => ({
    seconds,
    position: ((number - 1) * chart.meter.beats + (beat - 1)) * quarters,
  }));
  const last = Math.max(...positions);
  const choruses = Math.max(1, Math.ceil(last / (bar * chart.bars.length)));
  const downbeats = solo.beats.filter(({ beat }) => beat === 1);
  const bars = downbeats.slice(0, -1).map(({ seconds, bar: number }, i) => ({
    chorus: Math.floor((number - 1) / chart.bars.length) + 1,
    bar: ((number - 1) % chart.bars.length) + 1,
    start: seconds,
    end: downbeats[i + 1]!.seconds,
    confidence: 1,
  }));
  const tempo =
    60 / ((solo.beats[solo.beats.length - 1]!.seconds - solo.beats[0]!.seconds) / (solo.beats.length - 1));
  return {
    method: "tracked",
    confidence: 1,
    choruses,
    pickupBeats: 0,
    tempo: { median: tempo, slowest: tempo, fastest: tempo },
    bars,
    anchors: [],
    map,
    warnings: [],
  } as unknown as Alignment;
}
