import type { Chord } from "../chart/index.ts";
import { mod12 } from "../pitch/index.ts";
import { CENTRE, type PracticeContext } from "./context.ts";
import type { ExerciseBar, ExerciseNote } from "./exercise.ts";
import { spellOver } from "./spelling.ts";
import { type Stand, standsOf } from "./stands.ts";

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
      const tones = length >= 4 ? guideTonesFrom(chord, before) : guideTonesFrom(chord, before).slice(0, 1);
      const stand = standHolding(context, chord, tones);
      tones.forEach((pitch, k) => {
        const beats = length / tones.length;
        notes.push(guideNote(context, chord, stand, pitch, at + k * beats, beats));
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
function standHolding(context: PracticeContext, chord: Chord, tones: readonly number[]): Stand | null {
  const stands = context.shapes.flatMap((shape) => standsOf(shape, chord));
  return stands.find((stand) => tones.every((pitch) => stand.keys.includes(pitch))) ?? null;
}

/** Where no place of the hand holds the tones, the middle finger plays them one by one. */
function guideNote(
  context: PracticeContext,
  chord: Chord,
  stand: Stand | null,
  pitch: number,
  at: number,
  beats: number,
): ExerciseNote {
  return {
    at,
    beats,
    pitch,
    spelling: spellOver(pitch, chord, context.chart.key),
    finger: stand === null ? 3 : stand.fingers[stand.keys.indexOf(pitch)]!,
    // Two held notes do not show where a hand stands, so none is claimed.
    placement: null,
    slide: null,
  };
}
