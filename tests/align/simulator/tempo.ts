/** The course of a performance in time: when each chart position is reached. */
import { FIGURES } from "./figures.ts";
import type { Random } from "./random.ts";
import type { PerformanceSpec } from "./spec.ts";

export interface TimeCourse {
  /** Seconds of a chart position in quarter-note beats. */
  secondsAt(position: number): number;
  /** True for positions that a slip has left out. */
  lost(position: number): boolean;
  /** Beats that a slip has added, in seconds. */
  readonly extraBeats: readonly number[];
}

/** Draws the course of a take from `-pickup` to `end`; `changes` are the positions of chords. */
export function timeCourse(
  spec: PerformanceSpec,
  end: number,
  changes: readonly number[],
  random: Random,
): TimeCourse {
  const { meter } = spec.chart;
  const bar = (meter.beats * 4) / meter.unit;
  const beat = meter.unit >= 8 ? 1.5 : 1;
  const first = -Math.ceil(spec.pickup / beat + 1) * beat;
  const count = Math.ceil((end + 2 * bar - first) / beat);
  const seconds = new Float64Array(count + 1);
  const lost = new Set<number>();
  const extra = new Map<number, number>();
  const pauses = new Map<number, number>();
  const totalBars = Math.floor(end / bar);
  for (let s = 0; s < spec.slips; s++) {
    const at = random.whole(4, Math.max(4, totalBars - 5)) * bar;
    const last = at + bar - beat;
    if (random.chance(0.5)) lost.add(Math.round((last - first) / beat));
    else extra.set(Math.round((at + bar - first) / beat), 1);
  }
  for (let s = 0; s < spec.pauses; s++) {
    const at =
      random.whole(2, Math.max(2, totalBars - 2)) * bar + random.whole(0, Math.round(bar / beat) - 1) * beat;
    pauses.set(Math.round((at - first) / beat), random.between(0.4, 2));
  }
  const start = spec.fileKnows ? countInSeconds(spec, random) : random.between(0.3, 5);
  const durations =
    spec.timing === "rubato"
      ? rubatoBeats(spec, first, count, beat, changes, random)
      : steadyBeats(spec, count, beat, random);
  // `start` is where position 0 falls; the rest is laid around it.
  for (let i = 0; i < count; i++) {
    const hold = (pauses.get(i) ?? 0) + (extra.has(i) ? durations[i]! : 0);
    seconds[i + 1] = seconds[i]! + (lost.has(i) ? 0.004 : durations[i]!) + hold;
  }
  const zero = Math.round(-first / beat);
  const offset = start - seconds[zero]!;
  for (let i = 0; i <= count; i++) seconds[i]! += offset;
  // A pause or an added beat comes before the beat is struck: the wait belongs to the end of the beat before.
  const held = (i: number) => (pauses.get(i) ?? 0) + (extra.has(i) ? durations[i]! : 0);
  const extraBeats = [...extra.keys()].map((i) => seconds[i]! + durations[i]!);
  return {
    secondsAt(position) {
      const x = Math.max(0, Math.min(count - 1e-9, (position - first) / beat));
      const i = Math.floor(x);
      const length = seconds[i + 1]! - seconds[i]! - held(i);
      return seconds[i]! + (x - i) * length;
    },
    lost: (position) => lost.has(Math.floor((position - first) / beat + 1e-6)),
    extraBeats,
  };
}

function countInSeconds(spec: PerformanceSpec, random: Random): number {
  const bar = (spec.chart.meter.beats * 4) / spec.chart.meter.unit;
  const bars = Math.max(random.whole(0, 2), Math.ceil(spec.pickup / bar));
  return (bars * bar * 60) / spec.tempo;
}

function steadyBeats(spec: PerformanceSpec, count: number, beat: number, random: Random): Float64Array {
  const period = (60 / spec.tempo) * beat;
  const durations = new Float64Array(count).fill(period);
  if (spec.timing === "click") return durations;
  const clock = random.between(FIGURES.clock.low, FIGURES.clock.high) * (spec.unrest ?? 1);
  const drift = random.between(FIGURES.drift.low, FIGURES.drift.high);
  const sway = random.between(FIGURES.sway.low, FIGURES.sway.high);
  const length = random.pick([16, 32]);
  const phase = random.next();
  let wander = 0;
  for (let i = 0; i < count; i++) {
    wander = 0.95 * wander + random.normal(clock * 0.4);
    const course = 1 + (drift * i) / count + sway * Math.sin(2 * Math.PI * (i / length + phase)) + wander;
    durations[i] = (period / course) * (1 + random.normal(clock));
  }
  return durations;
}

function rubatoBeats(
  spec: PerformanceSpec,
  first: number,
  count: number,
  beat: number,
  changes: readonly number[],
  random: Random,
): Float64Array {
  const period = (60 / spec.tempo) * beat;
  const depth = random.between(FIGURES.rubato.low, FIGURES.rubato.high);
  const durations = new Float64Array(count);
  const starts = new Set(changes.map((c) => Math.round((c - first) / beat)));
  let own = 1;
  for (let i = 0; i < count; i++) {
    if (starts.has(i)) own = Math.exp(random.normal(depth));
    const within = 1 + depth * Math.sin(2 * Math.PI * (i / 8 + random.between(-0.1, 0.1)));
    durations[i] = period * own * Math.max(0.4, within) * Math.exp(random.normal(depth * 0.6));
  }
  return durations;
}
