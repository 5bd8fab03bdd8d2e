/** How free the hand is to move, by the silence before a note: a quarter of a second is enough to lie anew. [practice] */
import { expect, it } from "vitest";
import { handEvents } from "../../src/hands/events.ts";
import { line } from "./line.ts";

/** Freedom at a note that comes so many seconds of silence after the one before; keys are held to 95 in 100. */
function freedomAfter(silence: number): number {
  const { notes, spans } = line("key: C\n| C7 |", [60, null, 64], {
    beats: [0.2, silence - 0.01, 0.5],
    secondsPerBeat: 1,
  });
  return handEvents(notes, [0, 1], "right", spans)[1]!.ease;
}

it("it is bound where keys follow each other, half free in between, and free after a quarter of a second", () => {
  expect(freedomAfter(0.025)).toBe(0);
  expect(freedomAfter(0.05)).toBeGreaterThan(0);
  expect(freedomAfter(0.14)).toBeCloseTo(0.5, 1);
  expect(freedomAfter(0.24)).toBeLessThan(1);
  expect(freedomAfter(0.255)).toBe(1);
});
