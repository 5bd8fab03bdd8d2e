import { placementInWords } from "./chord-placements.ts";
import { chordsOf, ownPlacements, type PracticeContext, placedNote, upAndDown } from "./context.ts";
import type { ExerciseBar } from "./exercise.ts";

/** Chord by chord, the shape on each of its places: once up and down, then the anchor finger's key to rest on. */
export function placementBars(context: PracticeContext): ExerciseBar[] {
  return chordsOf(context).flatMap((chord) =>
    ownPlacements(context, chord).flatMap((placement, i): ExerciseBar[] => [
      {
        chords: [{ at: 0, symbol: chord.symbol }],
        notes: upAndDown(context, placement, chord),
        words: placementInWords(placement),
        newLine: i === 0,
      },
      {
        chords: [],
        notes: [placedNote(context, placement, chord, placement.shape.anchorFinger, 0, context.barBeats / 2)],
        words: null,
        newLine: false,
      },
    ]),
  );
}
