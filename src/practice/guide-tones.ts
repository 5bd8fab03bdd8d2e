import type { Chord } from "../chart/index.ts";
import { isBlackKey, mod12 } from "../pitch/index.ts";
import type { Finger } from "../take/index.ts";
import { type ChordPlacement, placementsOn } from "./chord-placements.ts";
import { CENTRE, keyOver, type PracticeContext } from "./context.ts";
import type { ExerciseBar, ExerciseNote } from "./exercise.ts";
import { spellOver } from "./spelling.ts";

const LENGTH = 16;

/** Third and seventh of each chord of the form in half notes, each by the shortest way from the note before. */
export function guideToneBars(context: PracticeContext): ExerciseBar[] {
  let before = CENTRE;
  return context.chart.bars.slice(0, LENGTH).map((bar, i) => {
    const perQuarter = context.chart.meter.unit / 4;
    const notes: ExerciseNote[] = [];
    for (const { chord, beat, beats } of bar.chords) {
      if (chord === null) continue;
      const at = (beat - 1) / perQuarter;
      const length = beats / perQuarter;
      const both = guideTonesFrom(chord, before);
      const tones = length >= LEAST_FOR_BOTH ? both : both.slice(0, 1);
      const fingers = fingersFor(placementHolding(context, chord, tones), tones);
      const lengths = lengthsOf(length, tones.length, context.pulse);
      let start = at;
      tones.forEach((pitch, k) => {
        notes.push(guideNote(context, chord, pitch, fingers[k]!, start, lengths[k]!));
        start += lengths[k]!;
        before = pitch;
      });
    }
    return {
      chords: bar.chords.map((one) => ({ at: (one.beat - 1) / perQuarter, symbol: one.symbol })),
      notes,
      words: null,
      newLine: i > 0 && i % 4 === 0,
    };
  });
}

/** The nearer of the two first. */
function guideTonesFrom(chord: Chord, before: number): number[] {
  const classes = chord.tones
    .filter((tone) => tone.role === "third" || tone.role === "seventh")
    .map((tone) => (chord.rootClass + tone.semitones) % 12);
  const first = classes
    .map((pitchClass) => nearest(pitchClass, before))
    .sort((a, b) => Math.abs(a - before) - Math.abs(b - before))[0];
  if (first === undefined) return [];
  const other = classes.find((pitchClass) => pitchClass !== first % 12);
  return other === undefined ? [first] : [first, nearest(other, first)];
}

function nearest(pitchClass: number, to: number): number {
  const below = to - mod12(to - pitchClass);
  const candidates = [below, below + 12].filter((pitch) => pitch >= 60 && pitch <= 79);
  return candidates.sort((a, b) => Math.abs(a - to) - Math.abs(b - to))[0] ?? below + 12;
}

/** A place of the student's hand that holds all the tones, or null. */
function placementHolding(
  context: PracticeContext,
  chord: Chord,
  tones: readonly number[],
): ChordPlacement | null {
  const placements = context.shapes.flatMap((shape) => placementsOn(shape, chord));
  return placements.find((placement) => tones.every((pitch) => placement.keys.includes(pitch))) ?? null;
}

/** Quarter notes that a chord must last for both of its guide tones. */
const LEAST_FOR_BOTH = 3;

/** Two tones share a chord's length by whole beats, the first the longer: 2+2 in four, 2+1 in three. */
function lengthsOf(length: number, tones: number, pulse: number): number[] {
  if (tones < 2) return [length];
  const first = Math.ceil(length / 2 / pulse - 1e-9) * pulse;
  return [first, length - first];
}

/**
 * The fingers of a place of the hand that holds the tones; where there is none, a finger for each that lies at that
 * distance: no finger on two keys a fourth apart. [practice; spans as in the finger tables]
 */
function fingersFor(placement: ChordPlacement | null, tones: readonly number[]): Finger[] {
  if (placement !== null) return tones.map((pitch) => placement.fingers[placement.keys.indexOf(pitch)]!);
  const low = Math.min(...tones);
  const size = Math.max(...tones) - low;
  if (size === 0) return tones.map(() => 3);
  // The thumb keeps off black keys where the span leaves it the choice.
  const [under, over] = isBlackKey(low) && size <= WIDE ? spanFrom(2, size) : spanFrom(1, size);
  return tones.map((pitch) => (pitch === low ? under : over));
}

/** Semitones that second and little finger span in comfort. [lit: Parncutt et al. 1997] */
const WIDE = 8;

function spanFrom(low: 1 | 2, size: number): readonly [Finger, Finger] {
  if (size <= 2) return [low, low === 1 ? 2 : 3];
  if (size <= 4) return [low, low === 1 ? 3 : 4];
  return [low, low === 1 && size <= 6 ? 4 : 5];
}

function guideNote(
  context: PracticeContext,
  chord: Chord,
  pitch: number,
  finger: Finger,
  at: number,
  beats: number,
): ExerciseNote {
  return {
    at,
    beats,
    pitch,
    spelling: spellOver(pitch, chord, keyOver(context, chord)),
    finger,
    // Two held notes do not show where a hand stands, so none is claimed.
    placement: null,
    slide: null,
  };
}
