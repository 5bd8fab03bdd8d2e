import { chordOfBar, symbolOfBar } from "./call-and-answer.ts";
import { emptyBar, ideaBars, ownPlacements, type PracticeContext } from "./context.ts";
import type { ExerciseBar } from "./exercise.ts";

/** Two bars of the idea, two bars of counted rest, through one chorus of at most twelve bars. */
export function restBars(context: PracticeContext): ExerciseBar[] {
  const length = Math.min(12, context.chart.bars.length);
  const bars: ExerciseBar[] = [];
  while (bars.length < length) {
    const group = bars.length;
    while (bars.length < group + 2)
      bars.push(...playedBars(context, bars.length, group > 0 && bars.length === group));
    while (bars.length < group + 4) bars.push(emptyBar(symbolOfBar(context, bars.length), "rest: count"));
  }
  return bars.slice(0, length);
}

function playedBars(context: PracticeContext, index: number, newLine: boolean): ExerciseBar[] {
  const chord = chordOfBar(context, index);
  const placement = chord === null ? undefined : ownPlacements(context, chord)[0];
  const played = placement && chord ? ideaBars(context, placement, chord, null) : null;
  if (played === null) return [emptyBar(symbolOfBar(context, index), "your own")];
  return played.map((bar, i) => ({ ...bar, newLine: newLine && i === 0 }));
}
