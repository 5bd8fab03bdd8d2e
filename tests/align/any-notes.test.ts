import fc from "fast-check";
import { expect, test } from "vitest";
import { align } from "../../src/align/index.ts";
import { formChart } from "../../src/chart/index.ts";
import { partHands } from "../../src/parting/part-hands.ts";
import { checkTimeMap, type Take } from "../../src/take/index.ts";
import { drawSpec, perform } from "./simulator/index.ts";

const OPEN = { soloPart: null, soloStaff: null, soloHand: null };
const MOST_NOTES = 80;
const { take: performed } = perform({ ...drawSpec("steady", 4), choruses: 2 });

/** The notes of a performance struck again at other keys, after other waits. */
function scattered(pitches: readonly number[], waits: readonly number[]): Take {
  let now = 0;
  const notes = performed.notes.slice(0, pitches.length).map((note, i) => {
    now += waits[i]!;
    return {
      ...note,
      pitch: pitches[i]!,
      onset: now,
      tick: Math.round(now * 2 * performed.ticksPerQuarter),
    };
  });
  return { ...performed, notes };
}

test("whatever is played and however it is asked to be read, time runs forward over the chart", () => {
  const chart = formChart("blues-basic", "C");
  fc.assert(
    fc.property(
      fc.array(fc.integer({ min: 21, max: 108 }), { minLength: 1, maxLength: MOST_NOTES }),
      fc.array(fc.constantFrom(0, 0.01, 0.17, 0.25, 0.5, 0.51, 1, 4), {
        minLength: MOST_NOTES,
        maxLength: MOST_NOTES,
      }),
      fc.constantFrom("auto", "click", "tracked", "rubato" as const),
      fc.constantFrom(null, 60, 120, 240),
      (pitches, waits, method, tempo) => {
        const take = scattered(pitches, waits);
        const { hands } = partHands(take, OPEN);
        const { map, bars } = align(take, chart, hands, { method, tempo, anchors: [] });
        checkTimeMap(map);
        expect(bars.every((bar) => bar.end > bar.start)).toBe(true);
      },
    ),
    { numRuns: 150, seed: 1 },
  );
});
