import type { Chord } from "../chart/index.ts";
import { type ChordPlacement, placementInWords, placementsOn } from "./chord-placements.ts";
import { belongs, CENTRE, type PracticeContext, placedNote, upAndDown } from "./context.ts";
import type { ExerciseBar } from "./exercise.ts";

/** At each change of the form the place that serves both chords: the hand stays, the chord moves under it. */
export function sharedPlacementBars(context: PracticeContext): ExerciseBar[] {
  const bars: ExerciseBar[] = [];
  for (const [from, to] of changesOf(context)) {
    const shared = sharedPlacement(context, from, to);
    if (shared === null) continue;
    const [first, second] = shared;
    const held = context.pulse > 1 ? context.pulse : context.barBeats - 2;
    bars.push(
      {
        chords: [{ at: 0, symbol: from.symbol }],
        notes: upAndDown(context, first, from),
        words: placementInWords(first),
        newLine: bars.length > 0 && bars.length % 4 === 0,
      },
      {
        chords: [{ at: 0, symbol: to.symbol }],
        notes: [
          placedNote(context, second, to, second.fingers[second.fingers.length - 1]!, 0, context.pulse),
          placedNote(context, second, to, second.shape.anchorFinger, context.pulse, held),
        ],
        words: `now ${placementInWords(second)}`,
        newLine: false,
      },
    );
  }
  return bars;
}

function changesOf(context: PracticeContext): [Chord, Chord][] {
  const changes = new Map<string, [Chord, Chord]>();
  context.spans.forEach((span, i) => {
    const next = context.spans[(i + 1) % context.spans.length]!;
    if (span.chord === null || next.chord === null || span.symbol === next.symbol) return;
    changes.set(`${span.symbol}>${next.symbol}`, [span.chord, next.chord]);
  });
  return [...changes.values()];
}

function sharedPlacement(
  context: PracticeContext,
  from: Chord,
  to: Chord,
): [ChordPlacement, ChordPlacement] | null {
  const near = (placement: ChordPlacement) => Math.abs(placement.anchorPitch - CENTRE);
  for (const shape of context.shapes) {
    const next = placementsOn(shape, to);
    const both = placementsOn(shape, from)
      .filter((placement) => belongs(context, placement, from) && belongs(context, placement, to))
      .sort((a, b) => near(a) - near(b))
      .flatMap((placement) => {
        const same = next.find((one) => one.anchorPitch === placement.anchorPitch);
        return same === undefined ? [] : [[placement, same] as [ChordPlacement, ChordPlacement]];
      });
    if (both[0] !== undefined) return both[0];
  }
  return null;
}
