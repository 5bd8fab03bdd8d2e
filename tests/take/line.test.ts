/** The line in objects and in columns, and moments sought one after the other: two ways to the same, compared on notes by chance. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { lineColumns, melodicLine, secondsAt, secondsWalker } from "../../src/take/index.ts";

/** Gaps about as wide as keys struck together, notes shorter and longer than they. */
const note = fc.record({
  pitch: fc.integer({ min: 55, max: 80 }),
  gap: fc.constantFrom(0, 0.01, 0.03, 0.05, 0.2),
  duration: fc.constantFrom(0.02, 0.05, 0.3),
});

describe("the line", () => {
  it("is the same in objects and in columns", () => {
    fc.assert(
      fc.property(fc.array(note, { maxLength: 40 }), (drawn) => {
        let onset = 0;
        const notes = drawn.map(({ pitch, gap, duration }) => {
          onset += gap;
          return { pitch, duration, onset };
        });
        const { highest, first, last, end } = lineColumns(notes);
        const line = melodicLine(notes);
        expect(line.map((step) => [step.first, step.last, step.end])).toEqual(
          Array.from(first, (from, step) => [from, last[step], end[step]]),
        );
        line.forEach((step, k) => {
          expect(step.note).toBe(notes[highest[k]!]);
          expect(step.onset).toBe(notes[step.first]!.onset);
        });
      }),
    );
  });
});

describe("moments of positions", () => {
  it("are those that each position has by itself, in whatever order they are asked for", () => {
    const steps = fc.array(fc.double({ min: 0.01, max: 4, noNaN: true }), { minLength: 1, maxLength: 12 });
    const asked = fc.array(fc.double({ min: -5, max: 60, noNaN: true }), { maxLength: 30 });
    fc.assert(
      fc.property(steps, asked, (lengths, positions) => {
        let [seconds, position] = [0, 0];
        const map = [{ seconds, position }];
        for (const length of lengths) {
          seconds += length / 2;
          position += length;
          map.push({ seconds, position });
        }
        const walk = secondsWalker(map);
        for (const one of positions) expect(walk(one)).toBe(secondsAt(map, one));
      }),
    );
  });
});
