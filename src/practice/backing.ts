import { type Chord, parseChord } from "../chart/index.ts";
import { mod12 } from "../pitch/index.ts";
import type { Exercise } from "./exercise.ts";
import { pulseOf } from "./pulse.ts";

export type Backing = "walking bass" | "shells" | "none";

/** A note of the accompaniment: quarter-note beats from the first bar line. */
export interface BackingNote {
  readonly at: number;
  readonly beats: number;
  readonly pitch: number;
}

interface Stretch {
  readonly at: number;
  readonly beats: number;
  readonly chord: Chord;
}

/** Bass lies from E1 to about B2: an octave under the shells and clear of the exercise. */
const BASS = 28;
const SHELLS = 46;

/** A plain left hand under the exercise, bar by bar from its chord symbols; N.C. is silent. */
export function backingOf(exercise: Exercise, backing: Backing): BackingNote[] {
  const stretches = stretchesOf(exercise);
  switch (backing) {
    case "none":
      return [];
    case "shells":
      return stretches.flatMap(({ at, beats, chord }) =>
        shellOf(chord).map((pitch) => ({ at, beats: beats * 0.9, pitch })),
      );
    case "walking bass":
      return stretches.flatMap((stretch, i) =>
        walk(stretch, stretches[(i + 1) % stretches.length]!, pulseOf(exercise.meter)),
      );
  }
}

function stretchesOf(exercise: Exercise): Stretch[] {
  const barBeats = (exercise.meter.beats * 4) / exercise.meter.unit;
  const marks: { at: number; symbol: string }[] = [];
  exercise.bars.forEach((bar, i) => {
    // A bar without a symbol goes on with the chord before it.
    if (bar.chords.length === 0)
      marks.push({ at: i * barBeats, symbol: marks[marks.length - 1]?.symbol ?? "N.C." });
    for (const { at, symbol } of bar.chords) marks.push({ at: i * barBeats + at, symbol });
  });
  const end = exercise.bars.length * barBeats;
  return marks.flatMap(({ at, symbol }, i) => {
    const chord = parseChord(symbol);
    return chord === null ? [] : [{ at, beats: (marks[i + 1]?.at ?? end) - at, chord }];
  });
}

/** Third and seventh (or what stands for them), close together. */
function shellOf(chord: Chord): number[] {
  const tones = chord.tones.filter((tone) => tone.role === "third" || tone.role === "seventh");
  const chosen = tones.length > 0 ? tones : chord.tones.slice(0, 2);
  return chosen.map((tone) => from(SHELLS, chord.rootClass + tone.semitones)).sort((a, b) => a - b);
}

/**
 * Root, third, fifth, and a half step into the next root: the first walking bass that anybody learns. Over a slash
 * chord the bass note, then the chord's own root, third and fifth above it: C/E walks E G C. [practice]
 *
 * @param pulse quarter notes from step to step: the beat of the meter
 */
function walk(stretch: Stretch, next: Stretch, pulse: number): BackingNote[] {
  const bass = from(BASS, stretch.chord.bassClass);
  const target = from(BASS, next.chord.bassClass);
  const steps = [...stepsOver(bass, stretch.chord), bass + 12];
  const beats = Math.max(1, Math.floor(stretch.beats / pulse + 1e-9));
  return Array.from({ length: beats }, (_, i) => {
    const lead = i === beats - 1 && beats > 1;
    const pitch = lead ? target + (target > bass ? -1 : 1) : steps[i % steps.length]!;
    return { at: stretch.at + i * pulse, beats: pulse * 0.95, pitch };
  });
}

/** The bass note, and root, third and fifth of the chord rising above it. */
function stepsOver(bass: number, chord: Chord): number[] {
  const tones = ["root", "third", "fifth"].flatMap((role) => {
    const tone = chord.tones.find((one) => one.role === role);
    return tone === undefined ? [] : [mod12(chord.rootClass + tone.semitones - bass)];
  });
  return [...new Set([0, ...tones])].sort((a, b) => a - b).map((above) => bass + above);
}

function from(low: number, pitchClass: number): number {
  return low + mod12(pitchClass - low);
}
