import { chordOfBar } from "./call-and-answer.ts";
import { ownPlacements, type PracticeContext, placedNote, upAndDown } from "./context.ts";
import type { ExerciseBar } from "./exercise.ts";

/**
 * Two bars of eighths in one place, then a bar of beats and a bar of longer notes: the same pulse, fewer notes. In
 * compound meters the beat is dotted.
 */
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
  const { pulse, barBeats } = context;
  const beats = Math.floor(barBeats / pulse + 1e-9);
  const onBeats = Array.from({ length: beats }, (_, i) =>
    placedNote(context, placement, chord, fingers[i % fingers.length]!, i * pulse, pulse),
  );
  // A bar of two beats has no half that would be longer than a beat.
  const first = beats === 2 ? barBeats : Math.floor(beats / 2) * pulse;
  const longer = [placedNote(context, placement, chord, fingers[fingers.length - 1]!, 0, first)];
  if (first < barBeats) {
    longer.push(placedNote(context, placement, chord, placement.shape.anchorFinger, first, barBeats - first));
  }
  const eighths = upAndDown(context, placement, chord);
  const dotted = pulse > 1 ? "dotted " : "";
  return [
    bar(eighths, "eighths"),
    bar(eighths, null),
    bar(onBeats, `${dotted}quarters`),
    bar(longer, `${dotted}half notes`),
  ];
}
