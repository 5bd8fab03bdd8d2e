import type { AccountRun } from "../account.ts";
import { type LineNote, melodicLine, type PlacedNote } from "../take/index.ts";

/** Notes of a stepwise run at the least, and semitones of a step at most. [practice] */
const RUN_NOTES = 5;
const STEP = 2;
/** A gap between onsets of more than so many times the run's first one ends it: a breath is no step. [practice] */
const BREATH = 3;

/**
 * Stepwise runs: five or more notes in one direction, each by one or two semitones, with no breath between.
 * A note at which the line turns can end one run and start the next; `runNotes` counts it once.
 *
 * @param solo the line's notes in time order
 */
export function findRuns(solo: readonly PlacedNote[]): AccountRun[] {
  const line = melodicLine(solo);
  const runs: AccountRun[] = [];
  let start = 0;
  for (let i = 1; i <= line.length; i++) {
    if (i < line.length && continues(line, start, i)) continue;
    if (i - start >= RUN_NOTES) runs.push(runOf(line, start, i - 1));
    // The turning note may open the next run, unless the line leapt or breathed there.
    start = i < line.length && continues(line, i - 1, i) ? i - 1 : i;
  }
  return runs;
}

/** Ids of the notes that belong to stepwise runs, each once. */
export function runNotes(solo: readonly PlacedNote[], runs: readonly AccountRun[]): Set<string> {
  const place = new Map(solo.map((note, i) => [note.id, i]));
  const inRuns = new Set<string>();
  for (const run of runs) {
    const from = place.get(run.firstNote) ?? 0;
    const to = place.get(run.lastNote) ?? -1;
    for (let i = from; i <= to; i++) inRuns.add(solo[i]!.id);
  }
  return inRuns;
}

function continues(line: readonly LineNote<PlacedNote>[], start: number, i: number): boolean {
  const step = line[i]!.note.pitch - line[i - 1]!.note.pitch;
  if (step === 0 || Math.abs(step) > STEP) return false;
  if (i - start < 2) return line[i]!.onset - line[i - 1]!.end <= line[i - 1]!.end - line[i - 1]!.onset + 0.25;
  const direction = line[start + 1]!.note.pitch - line[start]!.note.pitch;
  if (step > 0 !== direction > 0) return false;
  return line[i]!.onset - line[i - 1]!.onset <= BREATH * (line[start + 1]!.onset - line[start]!.onset);
}

function runOf(line: readonly LineNote<PlacedNote>[], from: number, to: number): AccountRun {
  const [first, last, after] = [line[from]!.note, line[to]!.note, line[to + 1]];
  const leap = after === undefined ? 0 : after.note.pitch - last.pitch;
  const joined = after !== undefined && after.onset - line[to]!.onset <= BREATH * pace(line, from, to);
  return {
    firstNote: first.id,
    lastNote: last.id,
    direction: last.pitch > first.pitch ? "up" : "down",
    length: to - from + 1,
    chorus: first.chorus,
    bar: first.bar,
    beat: first.beat,
    leap: joined && Math.abs(leap) > STEP ? leap : null,
  };
}

function pace(line: readonly LineNote<PlacedNote>[], from: number, to: number): number {
  return (line[to]!.onset - line[from]!.onset) / (to - from);
}
