import { quantile } from "d3-array";
import type { AccountPhrase } from "../account.ts";
import type { LineNote, PlacedNote } from "../take/index.ts";
import { lbdm } from "./boundaries.ts";

/** A boundary after the step with index `after`. */
export interface Cut {
  readonly after: number;
  /** 0 to 1. */
  readonly strength: number;
  readonly ends: AccountPhrase["ends"];
}

/** The chart's beat under the line; null in rubato, where only seconds can be trusted. */
export interface PhraseClock {
  /** Quarter-note beats at a moment in seconds. */
  readonly beatAt: (seconds: number) => number;
  readonly barBeats: number;
}

/** What a player hears as a breath. Beats are quarter notes; the short measure allows for late releases. [practice] */
const BREATH = {
  restBeats: 0.85,
  restSeconds: 0.25,
  /** Longest silence that is still only a detached note, in seconds, where there is no beat. */
  freeRestSeconds: 0.45,
  /** A silence ends a phrase only where the notes come clearly slower than their neighbours do. */
  restPace: 1.5,
  heldBeats: 1.85,
  freeHeldSeconds: 1,
  heldPace: 3,
};

/** Steps on either side by which the usual pace is judged. */
const NEIGHBOURS = 8;

/** What is longer is searched for inner boundaries: four bars, or so many notes where there are no bars. [practice] */
const LONG = { bars: 4, notes: 32 };
/** Fewest notes that an inner boundary leaves on either side. */
const INNER_NOTES = 4;
/** Least boundary strength, and least pace of its gap, of an inner boundary. [practice] */
const INNER_STRENGTH = 0.25;
const INNER_PACE = 1.4;

/**
 * Where a line divides into phrases, in order, without the end.
 *
 * @param clock the chart's beat, or null in rubato
 */
export function phraseCuts(line: readonly LineNote<PlacedNote>[], clock: PhraseClock | null): Cut[] {
  const gaps = gapsOf(line, clock);
  const profile = lbdm(timed(line));
  const strengthAt = (i: number) => Math.min(1, Math.max(profile[i]!, gaps[i]!.restBars));
  const cuts: Cut[] = [];
  gaps.forEach((gap, i) => {
    const ends = breathAt(gap, clock === null);
    if (ends !== null) cuts.push({ after: i, strength: strengthAt(i), ends });
  });
  const breaths = withoutLoneNotes(cuts, gaps, line.length);
  const starts = [0, ...breaths.map((cut) => cut.after + 1)];
  const stops = [...breaths.map((cut) => cut.after), line.length - 1];
  const inner = starts.flatMap((start, k) => innerCuts(line, gaps, clock, start, stops[k]!));
  return [...breaths, ...inner].sort((a, b) => a.after - b.after);
}

interface Gap {
  /** Seconds from release, and from onset, to the next onset; the latter over the usual pace hereabouts. */
  readonly rest: number;
  readonly step: number;
  readonly pace: number;
  /** The same in quarter-note beats; 0 in rubato. */
  readonly restBeats: number;
  readonly stepBeats: number;
  /** Rest as a share of a bar. */
  readonly restBars: number;
}

function gapsOf(line: readonly LineNote<PlacedNote>[], clock: PhraseClock | null): Gap[] {
  const steps: number[] = [];
  for (let i = 0; i + 1 < line.length; i++) steps.push(line[i + 1]!.onset - line[i]!.onset);
  let held = 0;
  return steps.map((step, i) => {
    // An inner voice may still sound when the step's own key is up.
    held = Math.max(held, line[i]!.end);
    const next = line[i + 1]!.onset;
    const near = steps.slice(Math.max(0, i - NEIGHBOURS), i + NEIGHBOURS + 1);
    const rest = Math.max(0, next - held);
    const restBeats = clock === null || rest === 0 ? 0 : clock.beatAt(next) - clock.beatAt(held);
    return {
      rest,
      step,
      pace: step / Math.max(1e-6, quantile(near, 0.25)!),
      restBeats,
      stepBeats: clock === null ? 0 : clock.beatAt(next) - clock.beatAt(line[i]!.onset),
      restBars: clock === null ? Math.min(1, rest / 2) : restBeats / clock.barBeats,
    };
  });
}

function breathAt(gap: Gap, rubato: boolean): "rest" | "long note" | null {
  const silent = rubato
    ? gap.rest >= BREATH.freeRestSeconds
    : gap.restBeats >= BREATH.restBeats && gap.rest >= BREATH.restSeconds;
  if (gap.restBars >= 0.95 || (silent && gap.pace >= BREATH.restPace)) return "rest";
  const held = rubato ? gap.step >= BREATH.freeHeldSeconds : gap.stepBeats >= BREATH.heldBeats;
  return held && gap.pace >= BREATH.heldPace ? "long note" : null;
}

/** A note alone between two breaths belongs to the nearer neighbour, unless a bar of silence lies on both sides. */
function withoutLoneNotes(cuts: readonly Cut[], gaps: readonly Gap[], steps: number): Cut[] {
  const kept: Cut[] = [];
  for (let k = 0; k < cuts.length; k++) {
    const cut = cuts[k]!;
    const start = (kept[kept.length - 1]?.after ?? -1) + 1;
    const after = (cuts[k + 1]?.after ?? steps - 1) - cut.after;
    if (after === 1 && k + 1 < cuts.length && nearer(gaps, cut.after, cuts[k + 1]!.after)) continue;
    if (after === 1 && k + 1 === cuts.length && gaps[cut.after]!.restBars < 0.95) continue;
    if (cut.after === start && gaps[cut.after]!.restBars < 0.95) {
      const before = start - 1;
      if (before < 0 || !nearer(gaps, before, cut.after)) continue;
    }
    kept.push(cut);
  }
  return kept;
}

function nearer(gaps: readonly Gap[], before: number, after: number): boolean {
  return gaps[before]!.restBars < 0.95 && gaps[before]!.rest < gaps[after]!.rest;
}

/** Boundaries inside a stretch that is still too long for one breath, the strongest first. */
function innerCuts(
  line: readonly LineNote<PlacedNote>[],
  gaps: readonly Gap[],
  clock: PhraseClock | null,
  start: number,
  stop: number,
): Cut[] {
  if (!isLong(line, clock, start, stop)) return [];
  const profile = lbdm(timed(line.slice(start, stop + 1)));
  const clear = Math.max(INNER_STRENGTH, 2 * quantile(profile, 0.75)!);
  const candidates = profile
    // Without a change of pace a leap alone would be cut at, and lines leap within phrases all the time.
    .map((strength, i): Cut => ({ after: start + i, strength, ends: "change" }))
    .filter((cut) => cut.strength >= clear && gaps[cut.after]!.pace >= INNER_PACE)
    .sort((a, b) => b.strength - a.strength || a.after - b.after);
  // Ends of the pieces so far, rising.
  const ends = [start - 1, stop];
  const found: Cut[] = [];
  for (const cut of candidates) {
    const k = firstNotBelow(ends, cut.after);
    const [from, to] = [ends[k - 1]! + 1, ends[k]!];
    const roomy = cut.after - from + 1 >= INNER_NOTES && to - cut.after >= INNER_NOTES;
    if (!roomy || !isLong(line, clock, from, to)) continue;
    ends.splice(k, 0, cut.after);
    found.push(cut);
  }
  return found;
}

function firstNotBelow(rising: readonly number[], value: number): number {
  let low = 0;
  let high = rising.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (rising[middle]! < value) low = middle + 1;
    else high = middle;
  }
  return low;
}

function isLong(
  line: readonly LineNote<PlacedNote>[],
  clock: PhraseClock | null,
  from: number,
  to: number,
): boolean {
  if (to - from + 1 < 2 * INNER_NOTES) return false;
  if (clock === null) return to - from + 1 > LONG.notes;
  return clock.beatAt(line[to]!.end) - clock.beatAt(line[from]!.onset) > LONG.bars * clock.barBeats;
}

function timed(line: readonly LineNote<PlacedNote>[]) {
  return {
    pitches: line.map((step) => step.note.pitch),
    onsets: line.map((step) => step.onset),
    offsets: line.map((step) => step.end),
  };
}
