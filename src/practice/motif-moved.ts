import { chordsOf, ideaBars, ownStands, type PracticeContext } from "./context.ts";
import type { ExerciseBar } from "./exercise.ts";
import { standInWords } from "./stands.ts";

/** The student's idea on every placement of every chord, by the same fingers. */
export function motifMovedBars(context: PracticeContext): ExerciseBar[] {
  return chordsOf(context).flatMap((chord) =>
    ownStands(context, chord).flatMap((stand, i) => {
      const bars = ideaBars(context, stand, chord, standInWords(stand)) ?? [];
      return bars.map((bar, k) => ({ ...bar, newLine: i === 0 && k === 0 }));
    }),
  );
}
