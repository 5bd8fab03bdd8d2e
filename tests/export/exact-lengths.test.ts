/** A score's note lengths are written into the annotated score as they were read, and read back the same. */
import { expect, it } from "vitest";
import { analyse } from "../../src/analyse.ts";
import { annotatedScore } from "../../src/export/index.ts";
import { readTake } from "../../src/ingest/index.ts";
import { attributes, bar, note, rest, score } from "../ingest/score-text.ts";

it("keeps staccato, dotted and triplet lengths of notation", () => {
  // In twelfths of a quarter note: a sixteenth and a rest, a dotted eighth, a triplet eighth, a quarter cut short.
  const line = [3, -9, 9, -3, 4, -8, 10, -2].map((length) =>
    length > 0 ? note("C5", length) : rest(-length),
  );
  const bars = [1, 2, 3, 4].map((number) =>
    bar(number, (number === 1 ? attributes(12) : "") + line.join("")),
  );
  const bytes = score(...bars);
  const lengthsIn = (file: Uint8Array) => {
    const take = readTake(file, { name: "x" });
    return take.notes.map(({ ticks }) => (12 * ticks) / take.ticksPerQuarter);
  };
  const account = analyse(bytes, "| C7 | F7 | C7 | G7 |", { name: "x" });
  const again = new TextEncoder().encode(annotatedScore(account));
  expect(lengthsIn(again)).toEqual(lengthsIn(bytes));
});
