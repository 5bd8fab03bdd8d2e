import type { RhythmSummary } from "../account.ts";
import type { Chart } from "../chart/index.ts";
import {
  type Alignment,
  type LineNote,
  melodicLine,
  type PlacedNote,
  positionAt,
  type Take,
} from "../take/index.ts";
import { findRuns, runNotes } from "./runs.ts";
import { rounded } from "./spread.ts";
import { subdivisionShares, syncopationShare } from "./subdivision.ts";
import { type SwungBeat, summariseSwing, swungBeats } from "./swing.ts";
import { tempoStability } from "./tempo.ts";
import { describeTiming, LISTENING_ERROR } from "./timing.ts";

/** Shortest silence that is a rest and not a detached note: quarter-note beats, and seconds in rubato. [practice] */
const REST = { beats: 0.45, seconds: 0.25 };

/** Names of steps between notes by their size in semitones, up to and with. */
const STEP_SIZES = [
  { upTo: 0, name: "repeat" },
  { upTo: 2, name: "step" },
  { upTo: 4, name: "third" },
  { upTo: 7, name: "fourth-fifth" },
  { upTo: Number.POSITIVE_INFINITY, name: "wide" },
] as const;

/**
 * All that is said of a solo's time, and of its steps and rests. What cannot be measured (swing of notation, anything
 * against the beat in rubato) is null, not guessed.
 *
 * @param solo notes of the line in time order
 * @param other notes of the other hand in time order
 * @param format notation prints its time but does not play it, so nothing performed is measured there
 */
export function describeTime(
  solo: readonly PlacedNote[],
  other: readonly PlacedNote[],
  chart: Chart,
  alignment: Alignment,
  format: Take["format"],
): RhythmSummary {
  const line = melodicLine(solo);
  const barBeats = (chart.meter.beats * 4) / chart.meter.unit;
  const rubato = alignment.method === "rubato" || solo.some((note) => note.position === null);
  const performed = format !== "musicxml" && !rubato;
  const beats = performed ? swungBeats(solo, chart) : [];
  const steps = line.map((step) => step.note);
  const [start, end] = [line[0]?.onset ?? 0, line.reduce((e, step) => Math.max(e, step.end), 0)];
  const seconds = end - start;
  const bars = rubato || solo.length === 0 ? null : barsBetween(alignment, barBeats, start, end);
  const clock = rubato ? null : (s: number) => positionAt(alignment.map, s);
  const rests = restsOf(line, clock);
  const runs = findRuns(solo);
  return {
    swing: summariseSwing(beats),
    swingByBeat: swingByBeat(beats),
    ...(performed
      ? describeTiming(solo, other, alignment, format === "sound" ? LISTENING_ERROR : 0)
      : { timing: null, untimed: rubato ? ("no beat" as const) : ("no performance" as const) }),
    tempoStability: performed ? tempoStability(alignment, barBeats) : null,
    density: {
      perBar: bars === null ? null : rounded(solo.length / bars, 3),
      perSecond: seconds > 0 ? rounded(solo.length / seconds, 3) : 0,
    },
    subdivisions: rubato ? {} : subdivisionShares(steps.map((note) => note.position!)),
    syncopation: rubato ? null : syncopationShare(steps, barBeats),
    rests: seconds > 0 ? Math.min(1, rests.reduce((s, rest) => s + rest.seconds, 0) / seconds) : 0,
    intervals: stepShares(steps),
    runs: {
      share: solo.length === 0 ? 0 : runNotes(solo, runs).size / solo.length,
      count: runs.length,
      leapsAfter: runs.filter((run) => run.leap !== null).length,
    },
    longestRest: rests.reduce<RhythmSummary["longestRest"]>(
      (longest, rest) => (longest === null || rest.seconds > longest.seconds ? rest : longest),
      null,
    ),
  };
}

/** Swing of each beat of the bar that has enough measured beats of its own. */
function swingByBeat(beats: readonly SwungBeat[]): RhythmSummary["swingByBeat"] {
  const places = [...new Set(beats.map((b) => b.beat))].sort((a, b) => a - b);
  return places.flatMap((beat) => {
    const swing = summariseSwing(beats.filter((b) => b.beat === beat));
    return swing === null ? [] : [{ beat, swing }];
  });
}

/** Whole bars' worth of beats that the solo spans, one bar at least, so that one note is not a dense bar. */
function barsBetween(alignment: Alignment, barBeats: number, start: number, end: number): number {
  return Math.max(1, (positionAt(alignment.map, end) - positionAt(alignment.map, start)) / barBeats);
}

function restsOf(
  line: readonly LineNote<PlacedNote>[],
  clock: ((seconds: number) => number) | null,
): { seconds: number; beats: number | null; after: string }[] {
  const rests: { seconds: number; beats: number | null; after: string }[] = [];
  let held = 0;
  for (let i = 0; i + 1 < line.length; i++) {
    held = Math.max(held, line[i]!.end);
    const next = line[i + 1]!.onset;
    const seconds = next - held;
    if (seconds <= 0) continue;
    const beats = clock === null ? null : clock(next) - clock(held);
    if (beats === null ? seconds < REST.seconds : beats < REST.beats) continue;
    rests.push({
      seconds: rounded(seconds, 4),
      beats: beats === null ? null : rounded(beats, 3),
      after: line[i]!.note.id,
    });
  }
  return rests;
}

function stepShares(steps: readonly PlacedNote[]): Record<string, number> {
  const counts: Record<string, number> = {};
  for (let i = 1; i < steps.length; i++) {
    const size = Math.abs(steps[i]!.pitch - steps[i - 1]!.pitch);
    const name = STEP_SIZES.find((step) => size <= step.upTo)!.name;
    counts[name] = (counts[name] ?? 0) + 1;
  }
  const total = Math.max(1, steps.length - 1);
  return Object.fromEntries(
    STEP_SIZES.filter(({ name }) => counts[name] !== undefined).map(({ name }) => [
      name,
      counts[name]! / total,
    ]),
  );
}
