import type { Chord } from "../chart/index.ts";
import { emptyBar, ideaBars, ownPlacements, type PracticeContext } from "./context.ts";
import type { ExerciseBar } from "./exercise.ts";

/** Bars of the form that the exercise goes through: two lines of a page. */
const LENGTH = 8;

/**
 * The idea asks, the same number of empty bars waits for an answer, through the first bars of the form. The place
 * changes from call to call where the chord has two.
 */
export function callAndAnswerBars(context: PracticeContext): ExerciseBar[] {
  const bars: ExerciseBar[] = [];
  let turn = 0;
  while (bars.length < Math.min(LENGTH, context.chart.bars.length)) {
    const chord = chordOfBar(context, bars.length);
    const placements = chord === null ? [] : ownPlacements(context, chord);
    const placement = placements[turn % Math.max(1, placements.length)];
    const call = placement && chord ? ideaBars(context, placement, chord, "call") : null;
    if (call === null) {
      bars.push(emptyBar(symbolOfBar(context, bars.length), "your own"));
      continue;
    }
    const newLine = turn > 0 && turn % 2 === 0;
    bars.push(...call.map((bar, i) => ({ ...bar, newLine: newLine && i === 0 })));
    for (let i = 0; i < call.length; i++) {
      bars.push(emptyBar(symbolOfBar(context, bars.length), i === 0 ? "your answer" : null));
    }
    turn++;
  }
  return bars;
}

export function chordOfBar(context: PracticeContext, index: number): Chord | null {
  const bar = context.chart.bars[index % context.chart.bars.length];
  return bar?.chords[0]?.chord ?? null;
}

export function symbolOfBar(context: PracticeContext, index: number): string {
  const bar = context.chart.bars[index % context.chart.bars.length];
  return bar?.chords[0]?.symbol ?? "N.C.";
}
