import { chordOfBar } from "./call-and-answer.ts";
import { ownPlacements, type PracticeContext, placedNote, upAndDown } from "./context.ts";
import type { ExerciseBar } from "./exercise.ts";

/** Two bars of eighths in one place, then a bar of quarters and a bar of half notes: the same pulse, fewer notes. */
export function steadyTimeBars(context: PracticeContext): ExerciseBar[] {
  const chord = chordOfBar(context, 0);
  const placement = chord === null ? undefined : ownPlacements(context, chord)[0];
  if (chord === null || placement === undefined) return [];
  const bar = (notes: ExerciseBar["notes"], words: string | null): ExerciseBar => ({
    chords: [{ at: 0, symbol: chord.symbol }],
    notes,
    words,
    newLine: false,
  });
  const { fingers } = placement;
  const quarters = Array.from({ length: Math.floor(context.barBeats) }, (_, i) =>
    placedNote(context, placement, chord, fingers[i % fingers.length]!, i, 1),
  );
  const half = Math.floor(context.barBeats / 2);
  const halves = [
    placedNote(context, placement, chord, fingers[fingers.length - 1]!, 0, half),
    placedNote(context, placement, chord, placement.shape.anchorFinger, half, context.barBeats - half),
  ];
  const eighths = upAndDown(context, placement, chord);
  return [bar(eighths, "eighths"), bar(eighths, null), bar(quarters, "quarters"), bar(halves, "half notes")];
}
