import { chordOfBar } from "./call-and-answer.ts";
import { emptyBar, ideaBars, ownPlacements, type PracticeContext } from "./context.ts";
import type { ExerciseBar } from "./exercise.ts";

/** Beats after the bar line at which the same phrase enters, in order. */
const ENTRIES = [0.5, 1, 1.5, 2] as const;

/** The idea entering ever later in the bar, with room to think before each. */
export function entryBars(context: PracticeContext): ExerciseBar[] {
  const chord = chordOfBar(context, 0);
  const placement = chord === null ? undefined : ownPlacements(context, chord)[0];
  if (chord === null || placement === undefined) return [];
  return ENTRIES.flatMap((entry, k) => {
    const beat = Math.floor(entry) + 1;
    const words = entry % 1 === 0 ? `enter on ${beat}` : `enter after ${beat}`;
    const played = ideaBars(context, placement, chord, words, entry) ?? [];
    const all = played.length % 2 === 1 ? [...played, emptyBar(chord.symbol, null)] : played;
    return all.map((bar, i) => ({ ...bar, newLine: k > 0 && k % 2 === 0 && i === 0 }));
  });
}
