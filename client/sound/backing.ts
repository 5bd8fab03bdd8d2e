/** What can go along with a solo: click, walking bass, shell voicings, made from the chart. */
import { parseChart } from "../../src/chart/chart-text.ts";
import type { Chart, Chord } from "../../src/chart/types.ts";
import { mod12 } from "../../src/pitch/index.ts";
import type { AccountIndex } from "../shell/account-index.ts";

export interface BackingNote {
  readonly kind: "click" | "bass" | "shell";
  /** MIDI number; for a click 1 on the bar's first beat, else 0. */
  readonly pitch: number;
  /** Performed seconds of the take. */
  readonly onset: number;
  readonly duration: number;
  readonly velocity: number;
}

export type Backing = "click" | "bass" | "shells";

/** Where the click falls. */
export type ClickOn = "every beat" | "two and four";

interface Beat {
  readonly onset: number;
  readonly duration: number;
  readonly first: boolean;
  /** Of the beats that are felt in its bar an even one: two, four. */
  readonly back: boolean;
  /** Starts a chord. */
  readonly change: boolean;
  readonly chord: Chord | null;
  readonly next: Chord | null;
}

/** All of it for the whole take; without a beat only bass and shells where chords change. */
export function backingFor(index: AccountIndex, wanted: ReadonlySet<Backing>): BackingNote[] {
  if (wanted.size === 0) return [];
  return backingOf(parseChart(index.analysis.chart.text), index.analysis.alignment.bars, wanted, {
    steady: index.analysis.alignment.method !== "rubato",
  });
}

/** The same for a chart and the times of its bars (seconds). */
export function backingOf(
  chart: Chart,
  bars: readonly { readonly bar: number; readonly start: number; readonly end: number }[],
  wanted: ReadonlySet<Backing>,
  { steady, clickOn = "every beat" }: { readonly steady: boolean; readonly clickOn?: ClickOn },
): BackingNote[] {
  const beats = beatsOf(chart, bars, steady);
  const notes: BackingNote[] = [];
  if (wanted.has("click") && steady) {
    for (const beat of beats) {
      if (clickOn === "two and four" && !beat.back) continue;
      notes.push({
        kind: "click",
        pitch: beat.first ? 1 : 0,
        onset: beat.onset,
        duration: 0.03,
        velocity: beat.first ? 90 : 60,
      });
    }
  }
  if (wanted.has("bass")) notes.push(...walk(beats, steady));
  if (wanted.has("shells")) notes.push(...shells(beats));
  return notes.sort((a, b) => a.onset - b.onset);
}

function beatsOf(
  chart: Chart,
  bars: readonly { readonly bar: number; readonly start: number; readonly end: number }[],
  steady: boolean,
): Beat[] {
  const { beats: per, unit } = chart.meter;
  // In bars of six, nine and twelve eighths three of them are one beat as it is felt.
  const felt = unit === 8 && per > 3 && per % 3 === 0 ? 3 : 1;
  const beats: Omit<Beat, "next">[] = [];
  let before: Chord | null = null;
  for (const time of bars) {
    const bar = chart.bars[(((time.bar - 1) % chart.bars.length) + chart.bars.length) % chart.bars.length];
    if (!bar) continue;
    const length = (time.end - time.start) / per;
    for (let beat = 1; beat <= per; beat++) {
      const chord = bar.chords.findLast((one) => one.beat <= beat + 0.001)?.chord ?? null;
      const change = chord !== before;
      before = chord;
      if (!steady && !change && beat > 1) continue;
      beats.push({
        onset: time.start + (beat - 1) * length,
        duration: length,
        first: beat === 1,
        back: (beat - 1) % felt === 0 && ((beat - 1) / felt) % 2 === 1,
        change,
        chord,
      });
    }
  }
  return beats.map((beat, i) => ({
    ...beat,
    duration: steady ? beat.duration : (beats[i + 1]?.onset ?? beat.onset + 2) - beat.onset,
    next: beats[i + 1]?.chord ?? null,
  }));
}

const LOW = 33;
const HIGH = 50;

/** Root on the change, chord tones on the way, a half step into the next root. */
function walk(beats: readonly Beat[], steady: boolean): BackingNote[] {
  let last = 41;
  return beats.flatMap((beat, i): BackingNote[] => {
    const { chord } = beat;
    if (!chord) return [];
    const next = beats[i + 1];
    let pitch: number;
    if (beat.change || beat.first || !steady) pitch = nearest(chord.bassClass, last);
    else if (next?.change && next.chord) {
      const goal = nearest(next.chord.bassClass, last);
      pitch = last < goal ? goal - 1 : goal + 1;
    } else {
      const tones = chord.tones
        .filter((tone) => tone.role !== "tension")
        .map((tone) => (chord.rootClass + tone.semitones) % 12);
      const up = (i >> 3) % 2 === 0;
      pitch = stepTo(tones, last, up);
    }
    last = pitch;
    return [{ kind: "bass", pitch, onset: beat.onset, duration: beat.duration * 0.92, velocity: 62 }];
  });
}

function nearest(pitchClass: number, to: number): number {
  let best = LOW;
  for (let pitch = LOW; pitch <= HIGH; pitch++) {
    if (pitch % 12 === pitchClass && (best % 12 !== pitchClass || Math.abs(pitch - to) < Math.abs(best - to)))
      best = pitch;
  }
  return best;
}

function stepTo(classes: readonly number[], from: number, up: boolean): number {
  for (const direction of up ? [1, -1] : [-1, 1]) {
    for (let pitch = from + direction; pitch >= LOW && pitch <= HIGH; pitch += direction) {
      if (classes.includes(pitch % 12)) return pitch;
    }
  }
  return from;
}

/** Third and seventh, held until the chord changes, each moving as little as it can. */
function shells(beats: readonly Beat[]): BackingNote[] {
  const starts = beats.map((beat, i) => ({ beat, i })).filter(({ beat }) => beat.change || beat.first);
  let held = [52, 58];
  return starts.flatMap(({ beat }, k): BackingNote[] => {
    const { chord } = beat;
    if (!chord) return [];
    const until = starts[k + 1]?.beat.onset ?? beat.onset + beat.duration * 4;
    const classes = (["third", "seventh"] as const).flatMap((role) => {
      const tone = chord.tones.find((one) => one.role === role);
      return tone ? [(chord.rootClass + tone.semitones) % 12] : [];
    });
    held = classes.map((pitchClass, i) => {
      const near = held[i] ?? 55;
      const up = near + mod12(pitchClass - near);
      const pitch = up - near > 6 ? up - 12 : up;
      return pitch < 48 ? pitch + 12 : pitch > 64 ? pitch - 12 : pitch;
    });
    return held.map((pitch) => ({
      kind: "shell",
      pitch,
      onset: beat.onset,
      duration: Math.max(0.1, (until - beat.onset) * 0.95),
      velocity: 46,
    }));
  });
}
