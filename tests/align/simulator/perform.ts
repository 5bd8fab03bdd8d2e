/** Plays written notes as a person would, and keeps the truth beside the take. */
import type { Hand, Note, Take } from "../../../src/take/index.ts";
import { emptyTake } from "../../take/empty-take.ts";
import { comp } from "./comping.ts";
import { FIGURES } from "./figures.ts";
import { chordsPlayed, introChords, line, type WrittenNote } from "./material.ts";
import { type Random, seeded } from "./random.ts";
import type { PerformanceSpec } from "./spec.ts";
import { timeCourse } from "./tempo.ts";

export type { PerformanceSpec } from "./spec.ts";

export interface Truth {
  /** Beats of the meter (dotted quarters in 6/8 and 12/8), in seconds. */
  readonly beats: readonly number[];
  /** First beat of every bar from the first bar line on, in seconds. */
  readonly bars: readonly number[];
  /** Where a chord gives way to another, in quarter-note beats and seconds. */
  readonly changes: readonly { readonly position: number; readonly seconds: number }[];
  readonly choruses: number;
  /** Written position of each note of the take in quarter-note beats, null for added notes. */
  readonly positions: readonly (number | null)[];
  readonly hands: readonly Hand[];
  secondsAt(position: number): number;
}

export interface Performance {
  readonly spec: PerformanceSpec;
  readonly take: Take;
  readonly truth: Truth;
}

interface Struck {
  readonly pitch: number;
  readonly onset: number;
  readonly duration: number;
  readonly velocity: number;
  readonly hand: Hand;
  readonly position: number | null;
}

/** Plays a spec; the same spec gives the same take. */
export function perform(spec: PerformanceSpec): Performance {
  const random = seeded(spec.seed);
  const { chart } = spec;
  const bar = (chart.meter.beats * 4) / chart.meter.unit;
  const skipped = (spec.fromBar ?? 0) * bar;
  const introBeats = (spec.intro?.bars ?? 0) * bar;
  const chords = [
    ...(spec.intro === undefined ? [] : introChords(chart, spec.intro)),
    ...chordsPlayed(chart, spec.choruses, spec.tagBars),
  ].filter((placed) => skipped === 0 || placed.start + placed.beats > skipped + 1e-9);
  const written: WrittenNote[] = [
    ...comp(chart, chords, spec.comping, random, spec.compingAround, spec.timing === "rubato"),
    ...line(chart, chords, spec.pickup, random, ...spec.lineRange),
  ].filter((note) => skipped === 0 || note.position >= skipped - spec.pickup - 1e-9);
  const end = chords.at(-1)!.start + chords.at(-1)!.beats;
  const course = timeCourse(
    { ...spec, pickup: Math.max(spec.pickup, introBeats) },
    end,
    chords.map((c) => c.start),
    random,
  );
  const played = strikeAll(spec, written, course.secondsAt, course.lost, random);
  played.sort((a, b) => a.onset - b.onset || a.pitch - b.pitch);
  // A file begins at 0; a first note struck a little early would lie before it.
  const late = Math.max(0, 0.01 - played[0]!.onset);
  const struck = played.map((note) => ({ ...note, onset: note.onset + late }));
  const secondsAt = (position: number) => course.secondsAt(position) + late;
  const beat = chart.meter.unit >= 8 ? 1.5 : 1;
  const lastOnset = struck.at(-1)!.onset;
  const firstOnset = struck[0]!.onset;
  const beats: number[] = [];
  for (let p = -Math.ceil(Math.max(spec.pickup, introBeats) / beat) * beat; p <= end + 1e-9; p += beat) {
    if (course.lost(p)) continue;
    const t = secondsAt(p);
    if (t >= firstOnset - 0.1 && t <= lastOnset + 0.1) beats.push(t);
  }
  for (const t of course.extraBeats) if (t + late <= lastOnset) beats.push(t + late);
  beats.sort((a, b) => a - b);
  const bars: number[] = [];
  for (let p = skipped; p < end - 1e-9; p += bar) {
    if (secondsAt(p) <= lastOnset - 0.1) bars.push(secondsAt(p));
  }
  const form = bar * chart.bars.length;
  return {
    spec,
    take: makeTake(spec, struck),
    truth: {
      beats,
      bars,
      changes: chords
        .filter((c, k) => k === 0 || c.chord?.symbol !== chords[k - 1]!.chord?.symbol)
        .map((c) => ({ position: c.start, seconds: secondsAt(c.start) }))
        .filter(({ position, seconds }) => position >= skipped && seconds <= lastOnset + 0.05),
      choruses: Math.max(1, Math.round((end - spec.tagBars * bar) / form)),
      positions: struck.map((note) => note.position),
      hands: struck.map((note) => note.hand),
      secondsAt,
    },
  };
}

function strikeAll(
  spec: PerformanceSpec,
  written: readonly WrittenNote[],
  secondsAt: (position: number) => number,
  lost: (position: number) => boolean,
  random: Random,
): Struck[] {
  const range = (figure: { low: number; high: number }) => random.between(figure.low, figure.high);
  const unrest = spec.unrest ?? 1;
  const motor = range(FIGURES.motor) * unrest;
  const spread = range(FIGURES.chordSpread);
  const delay = range(FIGURES.lineDelay);
  const swingSpread = range(FIGURES.swingSpread) * unrest;
  const [wrong, missed, added] = [
    range(FIGURES.wrong) * unrest,
    range(FIGURES.missed) * unrest,
    range(FIGURES.added) * unrest,
  ];
  const place = spec.swing / (1 + spec.swing);
  const compound = spec.chart.meter.unit >= 8;
  const beatSeconds = 60 / spec.tempo;
  const struck: Struck[] = [];
  // Notes of one chord share the hand's deviation; each adds its own.
  const strokes = new Map<string, { deviation: number; roll: number }>();
  const perChord = new Map<string, number>();
  for (const note of written) {
    if (lost(note.position) || random.chance(missed)) continue;
    const key = `${note.hand} ${note.position}`;
    let stroke = strokes.get(key);
    if (stroke === undefined) {
      const rolls = random.chance(spec.timing === "rubato" ? 0.3 : 0.04);
      stroke = { deviation: random.normal(motor), roll: rolls ? range(FIGURES.roll) : 0 };
      strokes.set(key, stroke);
    }
    const order = perChord.get(key) ?? 0;
    perChord.set(key, order + 1);
    const within = note.position - Math.floor(note.position);
    const swung =
      !compound && Math.abs(within - 0.5) < 1e-6 ? Math.floor(note.position) + place : note.position;
    const onset =
      secondsAt(swung) +
      stroke.deviation +
      order * stroke.roll +
      random.normal(note.hand === "left" ? spread : 0.003) +
      (note.hand === "right" ? delay : 0) +
      (swung === note.position ? 0 : random.normal(swingSpread) * beatSeconds);
    const release = secondsAt(note.position + note.beats);
    const pitch = random.chance(wrong) ? note.pitch + random.pick([-2, -1, 1, 2]) : note.pitch;
    struck.push({
      pitch,
      onset,
      duration: Math.max(0.05, release - onset),
      velocity: Math.round(
        Math.max(20, Math.min(120, 72 + random.normal(10) + (note.hand === "right" ? 8 : 0))),
      ),
      hand: note.hand,
      position: note.position,
    });
    if (random.chance(added)) {
      const at = onset + random.between(0.02, 0.3);
      struck.push({
        pitch: pitch + random.pick([-1, 1, 2]),
        onset: at,
        duration: 0.1,
        velocity: 45,
        hand: note.hand,
        position: null,
      });
    }
  }
  return struck;
}

function makeTake(spec: PerformanceSpec, struck: readonly Struck[]): Take {
  const random = seeded(spec.seed + 77);
  const quarter = 480;
  const saidTempo =
    spec.timing === "click" && spec.fileKnows ? spec.tempo : random.chance(0.8) ? 120 : random.whole(60, 180);
  const tickOf = (seconds: number) => Math.round((seconds * saidTempo * quarter) / 60);
  const notes: Note[] = struck.map((note, i) => ({
    id: `n${i + 1}`,
    pitch: note.pitch,
    onset: note.onset,
    duration: note.duration,
    sounding: note.duration,
    velocity: note.velocity,
    tick: tickOf(note.onset),
    ticks: Math.max(1, tickOf(note.duration)),
    part: "t1",
    printed: null,
  }));
  return emptyTake({
    ticksPerQuarter: quarter,
    notes,
    parts: [{ id: "t1", name: "Piano", staves: 1, program: 0, notes: notes.length }],
    tempos: [{ tick: 0, seconds: 0, quartersPerMinute: saidTempo }],
    tempoStated: spec.fileKnows || random.chance(0.7),
    meters: [spec.fileKnows ? { tick: 0, ...spec.chart.meter } : { tick: 0, beats: 4, unit: 4 }],
  });
}
