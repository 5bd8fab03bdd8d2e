/** How long the account of a hand takes, by number of notes, beside sorting the same notes once as the floor. */
import { formChart } from "../../src/chart/index.ts";
import { BUILT_IN_SHAPES, explainHand } from "../../src/hands/index.ts";
import { simulate } from "../hands/simulator/play.ts";
import type { Bench } from "./types.ts";

const SIZES = [1000, 2000, 10_000, 100_000] as const;

export const bench: Bench = {
  name: "hands: placements and fingers with six shapes",
  run() {
    const chart = formChart("blues-quick-change", "F");
    const needed = SIZES[SIZES.length - 1]!;
    const solo = simulate(chart, {
      seed: 5,
      choruses: Math.ceil(needed / 50),
      shapes: BUILT_IN_SHAPES,
      strays: 0.05,
    });
    return SIZES.map((size) => {
      const notes = solo.notes.slice(0, size);
      const runs = Math.max(1, Math.min(7, Math.round(20_000 / size)));
      const explained = fastest(runs, () =>
        explainHand(notes, solo.spans, chart, { shapes: BUILT_IN_SHAPES, hand: "right" }),
      );
      const floor = fastest(runs, () =>
        [...notes].reverse().sort((a, b) => a.onset - b.onset || a.pitch - b.pitch),
      );
      return (
        `${String(notes.length).padStart(6)} notes: ${explained.toFixed(1).padStart(7)} ms, ` +
        `${((1000 * explained) / notes.length).toFixed(1)} us a note, ${(explained / floor).toFixed(0)} times the floor ` +
        `(sorting them, ${floor.toFixed(2)} ms)`
      );
    });
  },
};

function fastest(runs: number, work: () => unknown): number {
  let best = Number.POSITIVE_INFINITY;
  for (let k = 0; k < runs; k++) {
    const start = performance.now();
    work();
    best = Math.min(best, performance.now() - start);
  }
  return best;
}
