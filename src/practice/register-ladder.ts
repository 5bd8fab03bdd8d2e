import { belongs, chordsOf, emptyBar, ideaBars, type PracticeContext } from "./context.ts";
import type { ExerciseBar } from "./exercise.ts";
import { standInWords, standsOf } from "./stands.ts";

/** Highest key of the ladder: beyond it the shapes leave the usual keyboard's bright part. */
const TOP = 91;
const BOTTOM = 55;

/** The idea on one place of the home chord, an octave higher each time, with a bar of rest in which the hand moves. */
export function registerLadderBars(context: PracticeContext): ExerciseBar[] {
  const [home] = chordsOf(context);
  if (home === undefined) return [];
  const shape = context.shapes.find((one) => standsOf(one, home, BOTTOM, TOP).length > 0);
  if (shape === undefined) return [];
  const stands = standsOf(shape, home, BOTTOM, TOP).filter((stand) => belongs(context, stand, home));
  if (stands.length === 0) return [];
  const degree = stands[0]!.degree;
  return stands
    .filter((stand) => stand.degree === degree)
    .flatMap((stand) => {
      const bars = ideaBars(context, stand, home, standInWords(stand));
      return bars === null ? [] : [...bars, emptyBar(home.symbol, "move up")];
    });
}
