import type { Chord } from "../chart/index.ts";
import { mod12 } from "../pitch/index.ts";
import type { Finger } from "../take/index.ts";
import { CENTRE, chordsOf, keyOver, type PracticeContext } from "./context.ts";
import type { ExerciseBar, ExerciseNote } from "./exercise.ts";
import { spellBelow, spellOver } from "./spelling.ts";

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
  const { pulse, barBeats } = context;
  const most = Math.floor(barBeats / pulse + 1e-9);
  const spelled = (pitch: number) => spellOver(pitch, chord, keyOver(context, chord));
  const note = (
    pitch: number,
    spelling: string,
    finger: Finger,
    at: number,
    beats: number,
  ): ExerciseNote => ({
    at,
    beats,
    pitch,
    spelling,
    finger,
    placement: null,
    slide: null,
  });
  return targets.slice(0, most).flatMap((pitch, i) => {
    const last = i === Math.min(targets.length, most) - 1;
    const at = i * pulse;
    const target = note(pitch, spelled(pitch), 3, at, last ? barBeats - at : pulse - 0.5);
    if (last) return [target];
    const next = targets[i + 1]!;
    return [target, note(next - 1, spellBelow(next - 1, spelled(next)), 2, at + pulse - 0.5, 0.5)];
  });
}
