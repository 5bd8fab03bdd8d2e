/** What is played, as a musician would write it: a comping hand and an improvised line over a chart. */
import type { Chart, Chord } from "../../../src/chart/types.ts";
import type { Random } from "./random.ts";

/** A note as written: chart position and length in quarter-note beats. */
export interface WrittenNote {
  readonly position: number;
  readonly beats: number;
  readonly pitch: number;
  readonly hand: "left" | "right";
}

export const COMPING_STYLES = ["walking", "shells", "voicings", "oom-pah", "three on four", "none"] as const;
export type CompingStyle = (typeof COMPING_STYLES)[number];

interface Placed {
  readonly chord: Chord | null;
  readonly start: number;
  readonly beats: number;
}

/** Chords of one chorus, in quarter-note beats. */
function chordsOf(chart: Chart): Placed[] {
  const bar = (chart.meter.beats * 4) / chart.meter.unit;
  return chart.bars.flatMap((chartBar, b) =>
    chartBar.chords.map(({ chord, beat, beats }) => ({
      chord,
      start: b * bar + ((beat - 1) * 4) / chart.meter.unit,
      beats: (beats * 4) / chart.meter.unit,
    })),
  );
}

/** Chords over all choruses and the tag, which stays on the last chord. */
export function chordsPlayed(chart: Chart, choruses: number, tagBars: number): Placed[] {
  const bar = (chart.meter.beats * 4) / chart.meter.unit;
  const form = bar * chart.bars.length;
  const one = chordsOf(chart);
  const all = Array.from({ length: choruses }, (_, c) =>
    one.map((placed) => ({ ...placed, start: placed.start + c * form })),
  ).flat();
  // A tag rests on the tonic, which is where a listener hears that it is one.
  const home = one[0]!.chord;
  for (let b = 0; b < tagBars; b++) all.push({ chord: home, start: choruses * form + b * bar, beats: bar });
  return all;
}

/** Chords of an introduction, which ends where the form begins. */
export function introChords(
  chart: Chart,
  intro: { readonly bars: number; readonly over: "first chord" | "last bars" },
): Placed[] {
  const bar = (chart.meter.beats * 4) / chart.meter.unit;
  const form = bar * chart.bars.length;
  const one = chordsOf(chart);
  if (intro.over === "last bars") {
    return one
      .map((placed) => ({ ...placed, start: placed.start - form }))
      .filter((placed) => placed.start >= -intro.bars * bar - 1e-9);
  }
  return Array.from({ length: intro.bars }, (_, b) => ({
    chord: one[0]!.chord,
    start: (b - intro.bars) * bar,
    beats: bar,
  }));
}

const near = (pitchClass: number, around: number) => around + ((((pitchClass - around) % 12) + 18) % 12) - 6;

/** A comping hand in one of the usual manners [practice]. */
export function comp(
  chart: Chart,
  chords: readonly Placed[],
  style: CompingStyle,
  random: Random,
  around = 50,
  /** Out of time a pianist strikes every chord where it begins. */
  free = false,
): WrittenNote[] {
  const notes: WrittenNote[] = [];
  const beat = chart.meter.unit >= 8 ? 1.5 : 1;
  const add = (position: number, beats: number, pitch: number) =>
    notes.push({ position, beats, pitch, hand: "left" });
  let bass = around - 10;
  chords.forEach((placed, k) => {
    const { chord, start, beats } = placed;
    if (chord === null || style === "none") return;
    // A comping hand lays out now and then.
    if (!free && k > 0 && style !== "walking" && random.chance(0.07)) return;
    const count = Math.max(1, Math.round(beats / beat));
    const tones = chord.tones.map((tone) => (chord.rootClass + tone.semitones) % 12);
    const guide = chord.tones
      .filter((t) => t.role === "third" || t.role === "seventh")
      .map((t) => (chord.rootClass + t.semitones) % 12);
    switch (style) {
      case "walking": {
        const following = chords[k + 1]?.chord ?? chord;
        for (let b = 0; b < count; b++) {
          let target = b === 0 ? chord.bassClass : random.pick(tones);
          if (b === count - 1 && b > 0 && random.chance(0.6))
            target = (following.bassClass + random.pick([-1, 1, 2, 7]) + 12) % 12;
          bass = near(target, bass);
          if (bass < around - 20) bass += 12;
          if (bass > around + 2) bass -= 12;
          add(start + b * beat, beat * 0.9, bass);
          if (random.chance(0.05)) add(start + (b + 0.5) * beat, beat * 0.3, bass);
        }
        break;
      }
      case "shells":
      case "voicings": {
        const root = near(chord.bassClass, around - 8);
        const voicing =
          style === "shells"
            ? [root, ...guide.map((p) => near(p, root + 8)).filter((p) => p > root)]
            : [...new Set([...guide, (chord.rootClass + 2) % 12, tones[2] ?? tones[0]!])].map((p) =>
                near(p, around + 4),
              );
        const pattern = random.pick(
          beats >= 4
            ? [[0], [0, 1.5], [0, 2], [0, 1.5, 3], ...(free ? [] : [[0.5, 2.5]]), [0, 1, 2, 3]]
            : beats >= 3
              ? [[0], [0, 1.5], [0, 1, 2]]
              : [[0], [0, beats / 2]],
        );
        pattern.forEach((at, p) => {
          const snapped = chart.meter.unit >= 8 ? Math.round(at * 2) / 2 : at;
          // A chord struck an eighth before the bar line already belongs to the next chord.
          const early =
            p === 0 && k > 0 && snapped === 0 && chart.meter.unit < 8 && !free && random.chance(0.22)
              ? -0.5
              : 0;
          const until = pattern[p + 1] ?? beats;
          for (const pitch of p > 0 && random.chance(0.3) ? varied(voicing, random) : voicing)
            add(start + snapped + early, Math.max(0.3, (until - at) * random.between(0.4, 0.95)), pitch);
        });
        break;
      }
      case "three on four": {
        // Strokes every three eighths, whatever the bar: the pattern meets the bar line again after three bars.
        const root = near(chord.bassClass, around - 8);
        for (let at = Math.ceil(start / 1.5 - 1e-9) * 1.5; at < start + beats - 1e-9; at += 1.5) {
          for (const pitch of [root, ...guide.map((p) => near(p, root + 8))]) add(at, 1, pitch);
        }
        break;
      }
      case "oom-pah": {
        const root = near(chord.bassClass, around - 12);
        for (let b = 0; b < count; b++) {
          if (b % 2 === 0 && !(count === 3 && b === 2))
            add(start + b * beat, beat * 0.8, b === 0 ? root : near(tones[2] ?? tones[0]!, root));
          else
            for (const p of guide.length > 1 ? guide : tones.slice(0, 3))
              add(start + b * beat, beat * 0.5, near(p, around + 4));
        }
        break;
      }
    }
  });
  return notes;
}

/** The same chord struck again otherwise: its lowest note an octave higher, or a note less [practice]. */
function varied(voicing: readonly number[], random: Random): number[] {
  if (voicing.length < 3 || random.chance(0.5)) return [...voicing.slice(1), voicing[0]! + 12];
  const without = random.whole(0, voicing.length - 1);
  return voicing.filter((_, k) => k !== without);
}

/** An improvised line in phrases with rests between, chord tones on the beats, steps and approaches between them. */
export function line(
  chart: Chart,
  chords: readonly Placed[],
  pickup: number,
  random: Random,
  low = 60,
  high = 86,
): WrittenNote[] {
  const notes: WrittenNote[] = [];
  const compound = chart.meter.unit >= 8;
  const end = chords.at(-1)!.start + chords.at(-1)!.beats;
  const scale = (chart.key.mode === "major" ? [0, 2, 4, 5, 7, 9, 11] : [0, 2, 3, 5, 7, 8, 10]).map(
    (s) => (s + chart.key.tonicClass) % 12,
  );
  if (chart.idiom === "blues") scale.push((chart.key.tonicClass + 3) % 12);
  const busy = random.between(0.35, 0.85);
  let pitch = random.whole(low + 8, high - 8);
  let direction = random.pick([-1, 1]);
  let k = 0;
  let position = -pickup;
  if (pickup === 0 && random.chance(0.4)) position = random.pick([0.5, 1, 1.5]) * (compound ? 1.5 : 1);
  while (position < end - 0.4) {
    const length = random.whole(4, 16);
    for (let i = 0; i < length && position < end - 0.4; ) {
      const roll = random.next();
      const onBeat =
        Math.abs(position / (compound ? 1.5 : 1) - Math.round(position / (compound ? 1.5 : 1))) < 1e-6;
      let steps: number[];
      if (compound)
        steps = onBeat && roll < 0.2 ? [1, 0.5] : roll < 0.28 ? [0.25, 0.25] : roll < 0.36 ? [1] : [0.5];
      else if (onBeat && roll < 0.08) steps = [1 / 3, 1 / 3, 1 / 3];
      else if (onBeat && roll < 0.13) steps = [0.25, 0.25, 0.25, 0.25];
      else if (onBeat && roll < 0.13 + 0.35 * (1 - busy)) steps = [1];
      else if (!onBeat && roll < 0.1) steps = [1];
      else if (!onBeat && roll < 0.14) steps = [1.5];
      else steps = [0.5];
      for (const step of steps) {
        while (k + 1 < chords.length && chords[k + 1]!.start <= position + 1e-9) k++;
        pitch = nextPitch(pitch, direction, chords[k]!.chord, scale, onBeat, random, low, high);
        if (random.chance(0.25)) direction = -direction;
        if (pitch > high - 3) direction = -1;
        if (pitch < low + 3) direction = 1;
        notes.push({ position: clean(position), beats: step * random.between(0.6, 1), pitch, hand: "right" });
        position = clean(position + step);
        i++;
      }
    }
    const unit = compound ? 0.5 : 0.5;
    const rest = random.whole(1, Math.max(2, Math.round(8 * (1 - busy)))) * unit;
    position = clean(Math.ceil(position / unit - 1e-6) * unit + rest);
  }
  // A line ends on a note that can be heard as its last.
  return notes;
}

function nextPitch(
  pitch: number,
  direction: number,
  chord: Chord | null,
  scale: readonly number[],
  strong: boolean,
  random: Random,
  low: number,
  high: number,
): number {
  const tones = chord === null ? scale : chord.tones.map((tone) => (chord.rootClass + tone.semitones) % 12);
  const wanted = strong && random.chance(0.75) ? tones : random.chance(0.85) ? [...tones, ...scale] : null;
  const leap = random.chance(0.15) ? random.whole(3, 7) : 1;
  let at = pitch + direction * leap;
  if (wanted !== null) while (!wanted.includes(((at % 12) + 12) % 12)) at += direction;
  if (at > high) at -= 12;
  if (at < low) at += 12;
  return at;
}

const clean = (value: number) => Math.round(value * 24) / 24;
