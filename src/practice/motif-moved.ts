import { placementInWords } from "./chord-placements.ts";
import { chordsOf, ideaBars, ownPlacements, type PracticeContext } from "./context.ts";
import type { ExerciseBar } from "./exercise.ts";

/** The student's idea on every placement of every chord, by the same fingers. */
export function motifMovedBars(context: PracticeContext): ExerciseBar[] {
  return chordsOf(context).flatMap((chord) =>
    ownPlacements(context, chord).flatMap((placement, i) => {
      const bars = ideaBars(context, placement, chord, placementInWords(placement)) ?? [];
      return bars.map((bar, k) => ({ ...bar, newLine: i === 0 && k === 0 }));
    }),
  );
}
