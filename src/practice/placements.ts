import { chordsOf, ownStands, type PracticeContext, standNote, upAndDown } from "./context.ts";
import type { ExerciseBar } from "./exercise.ts";
import { standInWords } from "./stands.ts";

/** Chord by chord, the shape on each of its places: once up and down, then the anchor finger's key to rest on. */
export function placementBars(context: PracticeContext): ExerciseBar[] {
  return chordsOf(context).flatMap((chord) =>
    ownStands(context, chord).flatMap((stand, i): ExerciseBar[] => [
      {
        chords: [{ at: 0, symbol: chord.symbol }],
        notes: upAndDown(context, stand, chord),
        words: standInWords(stand),
        newLine: i === 0,
      },
      {
        chords: [],
        notes: [standNote(context, stand, chord, stand.shape.anchorFinger, 0, context.barBeats / 2)],
        words: null,
        newLine: false,
      },
    ]),
  );
}
