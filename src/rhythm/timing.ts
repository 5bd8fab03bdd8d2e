import { median, quantile } from "d3-array";
import type { RhythmSummary } from "../account.ts";
import type { Alignment } from "../take/index.ts";
import {
  type LineNote,
  latenessOf,
  melodicLine,
  type PlacedNote,
  positionAt,
  tempoAt,
} from "../take/index.ts";
import { medianInterval, rounded, slope } from "./spread.ts";

/**
 * Smallest heard difference: 6 ms in short notes, 2.5 % of the interval in longer ones.
 * Friberg & Sundberg 1995, "Time discrimination in a monotonic, isochronous sequence".
 */
export const HEARD = { milliseconds: 6, share: 0.025 };

/**
 * Milliseconds by which onsets that were heard in a recording are off, as a standard deviation (`npm run report --
 * listening`). No difference is told finer than that: it is added to what can be heard.
 */
export const LISTENING_ERROR = 5;

/**
 * Fewer notes than this say nothing: of eight that are early or late by chance, all lie on one side once in 128 times
 * (sign test, 2 / 2^8 = .8 %), of seven once in 64.
 */
const FEWEST = 8;
/** Least span over which a drift is told, in minutes. [practice] */
const DRIFT_MINUTES = 0.25;

/** How early (-) or late (+) one note is, in milliseconds, and when. */
interface Lateness {
  readonly seconds: number;
  readonly milliseconds: number;
  /** Milliseconds to the next note of the line. */
  readonly interval: number;
}

/** Smallest difference in milliseconds that is heard in notes that follow each other at this interval (ms). */
export function hearingThreshold(interval: number): number {
  return Math.max(HEARD.milliseconds, HEARD.share * interval);
}

/** A reading of early or late is told from here on: on half of the open solos 98 in 100 of these were right to 30 ms. */
const SURE = 0.8;

/**
 * Early and late playing. Against the grid only where there is a grid that the player did not make (a click that the
 * file states); otherwise against the other hand, where both strike the same place of the chart: a beat that was drawn
 * through the line's own notes cannot tell. Only notes on the beat are measured: off the beat, swing moves notes and
 * lateness does not show. What is under the hearing threshold is given as 0.
 *
 * @param solo notes of the line in time order
 * @param other notes of the other hand in time order
 * @param error milliseconds by which onsets may be off for themselves; 0 for those that a keyboard sent
 * @returns `timing` in milliseconds; or null and, in `untimed`, why
 */
export function describeTiming(
  solo: readonly PlacedNote[],
  other: readonly PlacedNote[],
  alignment: Alignment,
  error = 0,
): Pick<RhythmSummary, "timing" | "untimed"> {
  const line = melodicLine(solo);
  const clicked = alignment.clicked === true;
  const late = clicked ? againstGrid(line, alignment) : againstHand(line, other);
  if (!clicked && late.length === 0) return { timing: null, untimed: "no click" };
  if (late.length < FEWEST) return { timing: null, untimed: "too few notes" };
  if (clicked && !isSure(line, alignment)) return { timing: null, untimed: "two readings" };
  const values = late.map((l) => l.milliseconds);
  const threshold = hearingThreshold(median(late, (l) => l.interval)!) + error;
  const heardOnly = (ms: number) => (Math.abs(ms) < threshold ? 0 : rounded(ms, 1));
  const middle = heardOnly(median(values)!);
  const [low, high] = medianInterval(values);
  const timing = {
    against: clicked ? ("grid" as const) : ("other hand" as const),
    median: middle,
    interval: { low: rounded(low, 1), high: rounded(high, 1) },
    q1: heardOnly(quantile(values, 0.25)!),
    q3: heardOnly(quantile(values, 0.75)!),
    notes: late.length,
    threshold: rounded(threshold, 1),
    heard: middle !== 0,
    drift: driftOf(late, threshold),
  };
  return { timing };
}

/** True where the line has one reading against the click: even eighths late by half a beat are early by nothing. */
function isSure(line: readonly LineNote<PlacedNote>[], { map, tempo }: Alignment): boolean {
  if (tempo === null) return false;
  return (
    latenessOf(
      line.map(({ onset }) => positionAt(map, onset)),
      60 / tempo.median,
    ).sure >= SURE
  );
}

function isOnBeat(note: PlacedNote): boolean {
  return note.position !== null && note.timing !== null && Number.isInteger(note.position);
}

function againstGrid(line: readonly LineNote<PlacedNote>[], alignment: Alignment): Lateness[] {
  return line.flatMap((step, i) => {
    if (!isOnBeat(step.note)) return [];
    return [
      {
        seconds: step.onset,
        milliseconds: (step.note.timing! * 60_000) / tempoAt(alignment.map, step.note.position!),
        interval: intervalAt(line, i),
      },
    ];
  });
}

function againstHand(line: readonly LineNote<PlacedNote>[], other: readonly PlacedNote[]): Lateness[] {
  const struck = new Map<number, number>();
  for (const step of melodicLine(other)) {
    if (step.note.position !== null) struck.set(step.note.position, step.onset);
  }
  return line.flatMap((step, i) => {
    const onset = isOnBeat(step.note) ? struck.get(step.note.position!) : undefined;
    if (onset === undefined) return [];
    return [
      {
        seconds: step.onset,
        milliseconds: (step.onset - onset) * 1000,
        interval: intervalAt(line, i),
      },
    ];
  });
}

function intervalAt(line: readonly LineNote<PlacedNote>[], i: number): number {
  const next = line[i + 1] ?? line[i];
  const before = next === line[i] ? line[i - 1] : line[i];
  return before === undefined ? 0 : (next!.onset - before.onset) * 1000;
}

/** Milliseconds a minute; null when it is too short to say, or when all of it together would not be heard. */
function driftOf(late: readonly Lateness[], threshold: number): number | null {
  const minutes = (late[late.length - 1]!.seconds - late[0]!.seconds) / 60;
  if (minutes < DRIFT_MINUTES) return null;
  const drift = slope(late.map((l) => ({ x: l.seconds / 60, y: l.milliseconds })));
  return drift === null || Math.abs(drift * minutes) < threshold ? null : rounded(drift, 1);
}
