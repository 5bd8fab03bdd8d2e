/** Takes with a comping hand that plays a chart in known voicings, for the tests of chart proposals. */
import type { Chart, Chord } from "../../src/chart/index.ts";
import { quartersPerBar } from "../../src/chart/index.ts";
import type { Note, Take } from "../../src/take/index.ts";
import { emptyTake } from "../take/empty-take.ts";

export type Voicing = "shell" | "close" | "rootless" | "bass and rootless" | "root and fifth" | "walking";

export interface Comping {
  readonly voicing: Voicing;
  readonly choruses: number;
  readonly tempo: number;
  /** Standard deviation of onsets in seconds. */
  readonly jitter: number;
  /** Share of chords struck an eighth early. */
  readonly early: number;
  readonly seed: number;
}

/** A small seeded generator (Marsaglia's xorshift, 32 bits), numbers from 0 to 1. */
function seeded(seed: number): () => number {
  let state = seed | 0 || 1;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) / 2 ** 32;
  };
}

/** A take whose comping plays the chart, struck once or twice for each chord. */
export function compingTake(chart: Chart, how: Comping): Take {
  const random = seeded(how.seed);
  const gauss = () => (random() + random() + random() - 1.5) * 2;
  const quarter = 60 / how.tempo;
  const bar = quartersPerBar(chart.meter);
  const notes: Note[] = [];
  for (let chorus = 0; chorus < how.choruses; chorus++) {
    for (const { number, chords } of chart.bars) {
      for (const { chord, beat, beats } of chords) {
        if (chord === null) continue;
        const at = (chorus * chart.bars.length + number - 1) * bar + ((beat - 1) * 4) / chart.meter.unit;
        const length = (beats * 4) / chart.meter.unit;
        if (how.voicing === "walking") {
          for (let step = 0; step < length; step++) {
            const onset = Math.max(0, (at + step) * quarter + gauss() * how.jitter);
            const pitch = walkingPitch(chord, step, random);
            notes.push(noteAt(notes.length + 1, pitch, onset, 0.9 * quarter, how.tempo));
          }
          continue;
        }
        const pushed = random() < how.early && at > 0 ? 0.5 : 0;
        const strikes =
          length > 2 && random() < 0.5
            ? [
                [-pushed, 1],
                [1.5, length - 2],
              ]
            : [[-pushed, length * 0.9]];
        for (const [start, lasts] of strikes) {
          for (const pitch of pitchesOf(chord, how.voicing)) {
            const onset = Math.max(0, (at + start!) * quarter + gauss() * how.jitter);
            const duration = Math.max(0.1, lasts! * quarter);
            notes.push(noteAt(notes.length + 1, pitch, onset, duration, how.tempo));
          }
        }
      }
    }
  }
  notes.sort((a, b) => a.onset - b.onset || a.pitch - b.pitch);
  const tempos = [{ tick: 0, seconds: 0, quartersPerMinute: how.tempo }];
  return emptyTake({ notes, tempos, meters: [{ tick: 0, ...chart.meter }] });
}

export function noteAt(id: number, pitch: number, onset: number, duration: number, tempo: number): Note {
  const ticks = (seconds: number) => Math.round((seconds * tempo * 480) / 60);
  return {
    id: `n${id}`,
    pitch,
    onset,
    duration,
    sounding: duration,
    velocity: 64,
    tick: ticks(onset),
    ticks: ticks(duration),
    part: "t1",
    printed: null,
  };
}

/** Root, then chord tones, then a half step or a step from somewhere on the way to the next root. [practice] */
function walkingPitch(chord: Chord, step: number, random: () => number): number {
  const root = 36 + chord.rootClass;
  const inside = chord.tones.map(({ semitones }) => semitones);
  if (step % 4 === 0) return root;
  if (step % 4 === 3) return root + [-1, 1, 2, 6][Math.floor(random() * 4)]!;
  return root + inside[Math.floor(random() * inside.length)]!;
}

/** Left-hand voicings as they are taught: shells (root, third, seventh), rootless (3-5-7-9 or 7-9-3-5). [practice] */
function pitchesOf(chord: Chord, voicing: Voicing): number[] {
  const by = (role: string) => chord.tones.find((tone) => tone.role === role)?.semitones;
  const root = 40 + ((chord.rootClass + 8) % 12);
  const third = by("third") ?? 4;
  const fifth = by("fifth") ?? 7;
  const seventh = by("seventh") ?? 12;
  const upper = [third, fifth, seventh, 14].map((semitones) => chord.rootClass + semitones);
  const rootless = upper.map((pitch) => 52 + ((pitch - 52 + 120) % 12));
  switch (voicing) {
    case "shell":
      return [root, root + third, root + seventh];
    case "close":
      return chord.tones
        .filter(({ role }) => role !== "tension")
        .map(({ semitones }) => root + 12 + semitones);
    case "rootless":
      return rootless;
    case "bass and rootless":
      return [root, ...rootless];
    case "walking":
    case "root and fifth":
      return [root, root + fifth];
  }
}
