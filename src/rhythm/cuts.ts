/**
 * Where a line breathes: how likely each gap between two notes ends a phrase.
 *
 * Listeners mark an end by the silence first, then by how much slower than its neighbourhood the gap is, by what comes
 * right after it, and by a wide leap across it; a note that is merely long, without silence, ends almost nothing
 * (2 of 156 gaps of three beats and more with under a seventh of a beat of silence). The local boundary detection model
 * (`boundaries.ts`) adds whether the gap is the strongest change around. The weights were learned by logistic
 * regression from phrases annotated by people; `npm run report -- phrases` learns them again and prints what they are
 * worth on solos that were not learned from.
 */
import { quantile } from "d3-array";
import type { AccountPhrase } from "../account.ts";
import { logistic } from "../statistics/logistic.ts";
import type { LineNote, PlacedNote } from "../take/index.ts";
import { lbdm } from "./boundaries.ts";

/** A boundary after the step with index `after`. */
export interface Cut {
  readonly after: number;
  /** How likely a listener ends a phrase here, 0 to 1. */
  readonly strength: number;
  readonly ends: AccountPhrase["ends"];
}

/** The chart's beat under the line; null in rubato, where only seconds can be trusted. */
export interface PhraseClock {
  /** Quarter-note beats at a moment in seconds. */
  readonly beatAt: (seconds: number) => number;
}

/** What is known of the gap after a step; the columns that the weights stand for. */
export interface GapFeatures {
  /** Natural logarithm of the silence in quarter-note beats; null in rubato. */
  readonly restBeats: number | null;
  /** Natural logarithm of the silence in seconds. */
  readonly restSeconds: number;
  /** Natural logarithm of the onset gap in seconds. */
  readonly stepSeconds: number;
  /** Natural logarithm of the onset gap over the lower quartile of those around it. */
  readonly pace: number;
  /** Natural logarithm of the onset gap over the next one. */
  readonly after: number;
  /** 1 where the line leaps by more than a fifth across the gap. */
  readonly leap: 0 | 1;
  /** 1 where no gap within four notes has a larger boundary strength. */
  readonly peak: 0 | 1;
}

/** Silences below this, in beats or seconds, are no longer told apart. */
const LEAST = 0.02;
/** Steps on either side by which the usual pace is judged. */
const NEIGHBOURS = 8;
/** Gaps on either side among which a peak of boundary strength is sought. */
const PEAK_AMONG = 4;
/** A leap wider than a fifth: intervals up to it are frequent within phrases. */
const WIDE = 7;

/** Learned weights, with a beat and without one; the first is the constant. */
export const BREATH_WEIGHTS = {
  beat: {
    constant: -0.054,
    restBeats: 0.302,
    restSeconds: 2.523,
    stepSeconds: 0,
    pace: 1.075,
    after: 0.335,
    leap: 0.559,
    peak: 1.595,
  },
  free: {
    constant: 0.377,
    restBeats: 0,
    restSeconds: 2.798,
    stepSeconds: 0.085,
    pace: 1,
    after: 0.334,
    leap: 0.557,
    peak: 1.623,
  },
} as const satisfies Record<string, Record<keyof GapFeatures | "constant", number>>;

/** From here on a gap is an end: the value with the best F on the solos that were learned from. */
export const BREATH_LIKELY = 0.46;
/** An end with less silence than this, in beats or in seconds without a beat, is told as a long note. [practice] */
const SILENT = { beats: 0.3, seconds: 0.15 };

/**
 * Where a line divides into phrases, in order, without the end.
 *
 * @param clock the chart's beat, or null in rubato
 */
export function phraseCuts(line: readonly LineNote<PlacedNote>[], clock: PhraseClock | null): Cut[] {
  const cuts = gapFeatures(line, clock).flatMap((gap, after): Cut[] => {
    const strength = breathLikelihood(gap);
    if (strength < BREATH_LIKELY) return [];
    const silent =
      gap.restBeats === null
        ? gap.restSeconds >= Math.log(SILENT.seconds)
        : gap.restBeats >= Math.log(SILENT.beats);
    return [{ after, strength, ends: silent ? "rest" : "long note" }];
  });
  return withoutLoneNotes(cuts);
}

/** People seldom make one note a phrase (20 of 4,945 annotated ones): it goes with the side that it stands nearer to. */
function withoutLoneNotes(cuts: readonly Cut[]): Cut[] {
  const kept: Cut[] = [];
  for (const cut of cuts) {
    const before = kept[kept.length - 1];
    if (before === undefined || cut.after > before.after + 1) kept.push(cut);
    else if (cut.strength > before.strength) kept[kept.length - 1] = cut;
  }
  return kept;
}

/** How likely a listener ends a phrase at this gap, 0 to 1: a logistic regression over its features. */
export function breathLikelihood(gap: GapFeatures): number {
  const w = gap.restBeats === null ? BREATH_WEIGHTS.free : BREATH_WEIGHTS.beat;
  const sum =
    w.constant +
    w.restBeats * (gap.restBeats ?? 0) +
    w.restSeconds * gap.restSeconds +
    w.stepSeconds * gap.stepSeconds +
    w.pace * gap.pace +
    w.after * gap.after +
    w.leap * gap.leap +
    w.peak * gap.peak;
  return logistic(sum);
}

/** The features of each of the n - 1 gaps between n steps of a line. */
export function gapFeatures(line: readonly LineNote<PlacedNote>[], clock: PhraseClock | null): GapFeatures[] {
  const steps = line.slice(1).map((next, i) => next.onset - line[i]!.onset);
  const strengths = lbdm({
    pitches: line.map((step) => step.note.pitch),
    onsets: line.map((step) => step.onset),
    offsets: line.map((step) => step.end),
  });
  let held = 0;
  return steps.map((step, i) => {
    // An inner voice may still sound when the step's own key is up.
    held = Math.max(held, line[i]!.end);
    const next = line[i + 1]!;
    const near = steps.slice(Math.max(0, i - NEIGHBOURS), i + NEIGHBOURS + 1);
    const around = strengths.slice(Math.max(0, i - PEAK_AMONG), i + PEAK_AMONG + 1);
    const rest = Math.max(0, next.onset - held);
    return {
      restBeats: clock === null ? null : log(rest === 0 ? 0 : clock.beatAt(next.onset) - clock.beatAt(held)),
      restSeconds: log(rest),
      stepSeconds: log(step),
      pace: log(step / Math.max(LEAST, quantile(near, 0.25)!)),
      after: log(step / Math.max(LEAST, steps[i + 1] ?? step)),
      leap: Math.abs(next.note.pitch - line[i]!.note.pitch) > WIDE ? 1 : 0,
      peak: strengths[i]! > 0 && strengths[i]! >= Math.max(...around) ? 1 : 0,
    };
  });
}

function log(value: number): number {
  return Math.log(Math.max(LEAST, value));
}
