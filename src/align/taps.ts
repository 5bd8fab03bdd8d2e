/**
 * From taps along a take to anchors. People tap unevenly (some 20 to 40 ms around the beat; Repp 2005 [memory]), miss
 * a tap and tap once too often: the steps between taps are counted along the likeliest path, taps that fit no beat are
 * left out, and the times are smoothed before they become anchors.
 */
import { quartersPerBar } from "../chart/meter.ts";
import { Problem } from "../take/index.ts";
import { anchorPosition } from "./anchors.ts";
import { beatCells, CELLS } from "./metre.ts";
import { beatTimes, medianOf, timeBetween } from "./smooth.ts";
import type { Anchor, FormSize } from "./types.ts";

/** What a tap stands for: a beat as a foot taps it, every second one, or the first beat of a bar. */
export const TAP_STEPS = ["beat", "second beat", "bar"] as const;
export type TapStep = (typeof TAP_STEPS)[number];

export interface TappedBeat {
  /** One at the first tap, at every bar line and at the last tap. */
  readonly anchors: readonly Anchor[];
  /** For each tap in order of time, how many steps after the first it was taken to be; null when left out. */
  readonly steps: readonly (number | null)[];
  /** Median seconds of a step. */
  readonly period: number;
}

/** Two taps closer than this (seconds) are one finger that bounced. */
const BOUNCE = 0.12;

/**
 * Lays taps over the chart.
 *
 * @param taps seconds of the take, in any order
 * @param first chart position of the first tap; `beat` in the meter's unit
 * @throws Problem `too-few-taps` for fewer than three taps that make a beat; `anchor-outside` for a place that is none
 * @example anchorsOfTaps([1, 1.5, 2, 2.5, 3], { chorus: 1, bar: 1, beat: 1 }, "beat", chart).anchors.length // 2
 */
export function anchorsOfTaps(
  taps: readonly number[],
  first: Omit<Anchor, "seconds">,
  step: TapStep,
  chart: FormSize,
): TappedBeat {
  const sorted = [...taps].sort((a, b) => a - b);
  const single = sorted.filter((t, i) => i === 0 || t - sorted[i - 1]! > BOUNCE);
  const steps = single.length < 3 ? [] : countSteps(single);
  const kept = steps.filter((count) => count !== null).length;
  if (kept < 3) {
    throw new Problem(
      "too-few-taps",
      `${kept < taps.length && taps.length >= 3 ? "The taps make no even beat" : "There are fewer than three taps"}`,
      null,
      "Tap along for at least a bar, as evenly as you can",
    );
  }
  const sightings = single.flatMap((seconds, i) =>
    steps[i] === null ? [] : [{ seconds, place: steps[i]!, spread: TAP_SPREAD }],
  );
  const whole =
    (sightings.at(-1)!.seconds - sightings[0]!.seconds) / (sightings.at(-1)!.place - sightings[0]!.place);
  const { times } = beatTimes(sightings, 0.02 * whole);
  const periods = Array.from(times.subarray(1), (t, i) => t - times[i]!);
  const quarters = stepQuarters(step, chart);
  const from = anchorPosition({ seconds: 0, ...first }, chart);
  const last = sightings.at(-1)!.place;
  const bar = quartersPerBar(chart.meter);
  const positions = new Set([from, from + last * quarters]);
  for (let b = Math.ceil(from / bar - 1e-9); b * bar <= from + last * quarters + 1e-9; b++)
    positions.add(b * bar);
  return {
    anchors: [...positions]
      .sort((a, b) => a - b)
      .filter((position, i, all) => i === 0 || position - all[i - 1]! > 1e-6)
      .map((position) => anchorAt(position, timeBetween(times, (position - from) / quarters), chart)),
    steps: sorted.map((t) => {
      const i = single.indexOf(t);
      return i < 0 ? null : steps[i]!;
    }),
    period: medianOf(periods),
  };
}

/** Quarter-note beats from one tap to the next. */
function stepQuarters(step: TapStep, chart: FormSize): number {
  const beat = beatCells(chart) / CELLS;
  switch (step) {
    case "beat":
      return beat;
    case "second beat":
      return 2 * beat;
    case "bar":
      return quartersPerBar(chart.meter);
  }
}

/**
 * Anchors that a take had and new ones, as one row: the new ones hold from their first to their last, and of the old
 * ones those stay that lie before or after on the chart as well as in time.
 */
export function mergeAnchors(old: readonly Anchor[], fresh: readonly Anchor[], chart: FormSize): Anchor[] {
  const [first, last] = [fresh[0], fresh.at(-1)];
  if (first === undefined || last === undefined) return [...old];
  const at = (anchor: Anchor) => anchorPosition(anchor, chart);
  const stays = old.filter(
    (anchor) =>
      (anchor.seconds < first.seconds && at(anchor) < at(first)) ||
      (anchor.seconds > last.seconds && at(anchor) > at(last)),
  );
  return [...stays, ...fresh].sort((a, b) => a.seconds - b.seconds);
}

function anchorAt(position: number, seconds: number, chart: FormSize): Anchor {
  const length = quartersPerBar(chart.meter);
  const bars = Math.floor(position / length + 1e-9);
  const chorus = Math.max(0, Math.floor(bars / chart.bars.length));
  return {
    seconds: Math.max(0, Number(seconds.toFixed(3))),
    chorus: chorus + 1,
    bar: bars - chorus * chart.bars.length + 1,
    beat: Number((1 + ((position - bars * length) * chart.meter.unit) / 4).toFixed(6)),
  };
}

/** Standard deviation of a tap, seconds, and of a step's change from tap to tap, share of it. */
const TAP_SPREAD = 0.03;
const UNEVEN = 0.07;
/** Prices in nats [practice]: a tap that is left out, and each tap that was missed. */
const STRAY = 4;
const MISSED = 1.6;
const MOST_MISSED = 4;
const FOLLOWED = 60;

interface Count {
  readonly cost: number;
  /** Seconds and step of the last tap that was kept, and seconds of a step there. */
  readonly seconds: number;
  readonly step: number;
  readonly period: number;
  readonly from: Count | null;
  readonly kept: boolean;
}

/** Steps from the first tap to each tap along the cheapest path; null for taps that fit none. */
function countSteps(taps: readonly number[]): (number | null)[] {
  const usual = medianOf(taps.slice(1).map((t, i) => t - taps[i]!));
  const start: Count = { cost: 0, seconds: taps[0]!, step: 0, period: usual, from: null, kept: true };
  let beam: Count[] = [start];
  for (const seconds of taps.slice(1)) {
    const next: Count[] = [];
    for (const count of beam) {
      next.push({ ...count, cost: count.cost + STRAY, from: count, kept: false });
      for (let k = 1; k <= 1 + MOST_MISSED; k++) {
        const late = seconds - count.seconds - k * count.period;
        const spread = Math.hypot(TAP_SPREAD, UNEVEN * count.period * Math.sqrt(k));
        const cost = count.cost + (late * late) / (2 * spread * spread) + MISSED * (k - 1);
        const period = count.period + (0.35 * late) / k;
        next.push({ cost, seconds, step: count.step + k, period, from: count, kept: true });
      }
    }
    beam = next.sort((a, b) => a.cost - b.cost).slice(0, FOLLOWED);
  }
  const steps: (number | null)[] = [];
  for (let at: Count | null = beam[0]!; at !== null; at = at.from) steps.push(at.kept ? at.step : null);
  return steps.reverse();
}
