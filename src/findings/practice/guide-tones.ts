import type { Chord } from "../../chart/index.ts";
import type { Finger } from "../../take/index.ts";
import { CENTRE, type PracticeContext } from "./context.ts";
import type { ExerciseBar, ExerciseNote } from "./exercise.ts";
import { spellOver } from "./spelling.ts";
import { placementOf, type Stand, standsOf } from "./stands.ts";

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
      tones.forEach((pitch, k) => {
        notes.push(guideNote(context, chord, pitch, at + (k * length) / tones.length, length / tones.length));
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
  const below = to - ((((to - pitchClass) % 12) + 12) % 12);
  const candidates = [below, below + 12].filter((pitch) => pitch >= 60 && pitch <= 79);
  return candidates.sort((a, b) => Math.abs(a - to) - Math.abs(b - to))[0] ?? below + 12;
}

/** A finger is given where a shape of the student's holds the tone. */
function guideNote(
  context: PracticeContext,
  chord: Chord,
  pitch: number,
  at: number,
  beats: number,
): ExerciseNote {
  const stand = context.shapes
    .flatMap((shape): Stand[] => standsOf(shape, chord))
    .find((one) => one.keys.includes(pitch));
  const finger: Finger | null = stand === undefined ? null : stand.fingers[stand.keys.indexOf(pitch)]!;
  return {
    at,
    beats,
    pitch,
    spelling: spellOver(pitch, chord, context.chart.key),
    finger: finger ?? 3,
    placement: finger === null ? null : placementOf(stand!),
    slide: null,
  };
}
