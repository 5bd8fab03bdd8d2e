import type { Chord } from "../chart/index.ts";
import { belongs, CENTRE, type PracticeContext, standNote, upAndDown } from "./context.ts";
import type { ExerciseBar } from "./exercise.ts";
import { type Stand, standInWords, standsOf } from "./stands.ts";

/** At each change of the form the place that serves both chords: the hand stays, the chord moves under it. */
export function sharedPlacementBars(context: PracticeContext): ExerciseBar[] {
  const bars: ExerciseBar[] = [];
  for (const [from, to] of changesOf(context)) {
    const shared = sharedStand(context, from, to);
    if (shared === null) continue;
    const [first, second] = shared;
    const held = context.pulse > 1 ? context.pulse : context.barBeats - 2;
    bars.push(
      {
        chords: [{ at: 0, symbol: from.symbol }],
        notes: upAndDown(context, first, from),
        words: standInWords(first),
        newLine: bars.length > 0 && bars.length % 4 === 0,
      },
      {
        chords: [{ at: 0, symbol: to.symbol }],
        notes: [
          standNote(context, second, to, second.fingers[second.fingers.length - 1]!, 0, context.pulse),
          standNote(context, second, to, second.shape.anchorFinger, context.pulse, held),
        ],
        words: `now ${standInWords(second)}`,
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

function sharedStand(context: PracticeContext, from: Chord, to: Chord): [Stand, Stand] | null {
  const near = (stand: Stand) => Math.abs(stand.anchorPitch - CENTRE);
  for (const shape of context.shapes) {
    const next = standsOf(shape, to);
    const both = standsOf(shape, from)
      .filter((stand) => belongs(context, stand, from) && belongs(context, stand, to))
      .sort((a, b) => near(a) - near(b))
      .flatMap((stand) => {
        const same = next.find((one) => one.anchorPitch === stand.anchorPitch);
        return same === undefined ? [] : [[stand, same] as [Stand, Stand]];
      });
    if (both[0] !== undefined) return both[0];
  }
  return null;
}
