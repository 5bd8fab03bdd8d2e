/** What is played, as a musician would write it: the chords of a chart, and an improvised line over them. */
import type { Chart, Chord } from "../../../src/chart/types.ts";
import type { Random } from "./random.ts";

/** A note as written: chart position and length in quarter-note beats. */
export interface WrittenNote {
  readonly position: number;
  readonly beats: number;
  readonly pitch: number;
  readonly hand: "left" | "right";
}

export interface Placed {
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
