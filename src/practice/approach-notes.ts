import type { Chord } from "../chart/index.ts";
import { mod12 } from "../pitch/index.ts";
import type { Finger } from "../take/index.ts";
import { CENTRE, chordsOf, type PracticeContext } from "./context.ts";
import type { ExerciseBar, ExerciseNote } from "./exercise.ts";
import { spellOver } from "./spelling.ts";

/** Each chord tone from a half step below, second finger to third, the hand moving up with the pair. */
export function approachBars(context: PracticeContext): ExerciseBar[] {
  return chordsOf(context)
    .slice(0, 8)
    .map((chord, i) => ({
      chords: [{ at: 0, symbol: chord.symbol }],
      notes: approaches(context, chord),
      words: i === 0 ? "second finger leads to the third" : null,
      newLine: i > 0 && i % 4 === 0,
    }));
}

function approaches(context: PracticeContext, chord: Chord): ExerciseNote[] {
  const root = CENTRE - 6 + mod12(chord.rootClass - CENTRE + 6);
  const targets = chord.tones.filter((tone) => tone.role !== "tension").map((tone) => root + tone.semitones);
  const most = Math.floor(context.barBeats);
  const note = (pitch: number, finger: Finger, at: number, beats: number): ExerciseNote => ({
    at,
    beats,
    pitch,
    spelling: spellOver(pitch, chord, context.chart.key),
    finger,
    placement: null,
    slide: null,
  });
  return targets.slice(0, most).flatMap((pitch, i) => {
    const last = i === Math.min(targets.length, most) - 1;
    const target = note(pitch, 3, i, last ? context.barBeats - i : 0.5);
    return last ? [target] : [target, note(targets[i + 1]! - 1, 2, i + 0.5, 0.5)];
  });
}
