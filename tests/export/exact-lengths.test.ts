/** A score's note lengths are written into the annotated score as they were read, and read back the same. */
import { expect, it } from "vitest";
import { analyse } from "../../src/analyse.ts";
import { annotatedScore } from "../../src/export/index.ts";
import { readTake } from "../../src/ingest/index.ts";
import { attributes, bar, note, rest, score } from "../ingest/score-text.ts";

/** Ticks of each note, in the divisions of the score that was read. */
function lengthsIn(file: Uint8Array, divisions: number): number[] {
  const take = readTake(file, { name: "x" });
  return take.notes.map(({ ticks }) => (divisions * ticks) / take.ticksPerQuarter);
}

/** The annotated score of four bars of this line: lengths in so many parts of a quarter note, rests below nothing. */
function annotated(line: readonly number[], divisions: number) {
  const content = line.map((length) => (length > 0 ? note("C5", length) : rest(-length))).join("");
  const bars = [1, 2, 3, 4].map((number) =>
    bar(number, (number === 1 ? attributes(divisions) : "") + content),
  );
  const bytes = score(...bars);
  return { bytes, text: annotatedScore(analyse(bytes, "| C7 | F7 | C7 | G7 |", { name: "x" })) };
}

const times = (count: number, length: number): number[] => new Array(count).fill(length);

it.each([
  ["staccato, dotted and triplet lengths", 12, [3, -9, 9, -3, 4, -8, 10, -2]],
  ["five in a beat", 20, [...times(5, 4), 8, 12, 20, 20]],
  ["seven in a beat", 28, [...times(7, 4), 12, 16, 28, 28]],
  ["nine in a beat", 36, [...times(9, 4), 36, 36, 36]],
  ["five in two beats", 60, [...times(5, 24), 60, 60]],
  ["three, five and seven in one bar", 420, [...times(3, 140), ...times(5, 84), ...times(7, 60), 420]],
  ["sixty-fourths and hundred-and-twenty-eighths", 32, [2, 2, 1, 1, 2, 8, 16, 32, 32, 32]],
  ["eleven in a beat, which has no value of its own here", 11, [...times(11, 1), 11, 11, 11]],
] as const)("keeps %s of notation", (_what, divisions, line) => {
  const { bytes, text } = annotated(line, divisions);
  const again = lengthsIn(new TextEncoder().encode(text), divisions);
  const read = lengthsIn(bytes, divisions);
  expect(again).toHaveLength(read.length);
  for (const [at, ticks] of read.entries()) expect(again[at]).toBeCloseTo(ticks, 3);
});

it("tells a reader how many stand in the time of how many", () => {
  // MusicXML 4.0, <time-modification>: a quintuplet has five sixteenths in the time of four.
  const { text } = annotated([...times(5, 4), 20, 20, 20], 20);
  expect(text.match(/<actual-notes>5<\/actual-notes><normal-notes>4<\/normal-notes>/g)).toHaveLength(20);
  expect(text.match(/<type>16th<\/type>/g)).toHaveLength(20);
});
