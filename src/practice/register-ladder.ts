import { placementInWords, placementsOn } from "./chord-placements.ts";
import { belongs, chordsOf, emptyBar, ideaBars, type PracticeContext } from "./context.ts";
import type { ExerciseBar } from "./exercise.ts";

/** Highest key of the ladder: beyond it the shapes leave the usual keyboard's bright part. */
const TOP = 91;
const BOTTOM = 55;

/** The idea on one place of the home chord, an octave higher each time, with a bar of rest in which the hand moves. */
export function registerLadderBars(context: PracticeContext): ExerciseBar[] {
  const [home] = chordsOf(context);
  if (home === undefined) return [];
  const shape = context.shapes.find((one) => placementsOn(one, home, BOTTOM, TOP).length > 0);
  if (shape === undefined) return [];
  const placements = placementsOn(shape, home, BOTTOM, TOP).filter((placement) =>
    belongs(context, placement, home),
  );
  if (placements.length === 0) return [];
  const degree = placements[0]!.degree;
  return placements
    .filter((placement) => placement.degree === degree)
    .flatMap((placement) => {
      const bars = ideaBars(context, placement, home, placementInWords(placement));
      return bars === null ? [] : [...bars, emptyBar(home.symbol, "move up")];
    });
}
