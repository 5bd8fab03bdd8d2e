/**
 * A take that is too long to be kept whole is summed stretch by stretch. There is no outside answer to hold it against but
 * this: sums of the same numbers in the same order are the same, however many are kept at a time.
 */
import { expect, test } from "vitest";
import { generateTake } from "../../corpus/generator/generate-take.ts";
import { randomSpec } from "../../corpus/generator/random-spec.ts";
import { freeGrid, knownGrid, UNREST } from "../../src/align/lattice/grids.ts";
import { layOnLattice } from "../../src/align/lattice/lattice.ts";
import { lineEvidence } from "../../src/align/lattice/lay-line.ts";
import { strokesOf } from "../../src/align/lattice/line-features.ts";
import { parseChart } from "../../src/chart/index.ts";
import { readTake } from "../../src/ingest/index.ts";
import { checkOptions } from "../../src/options.ts";
import { partHands } from "../../src/parting/index.ts";
import { takeOf } from "./human-solos.ts";

test.each([
  ["a line alone", 4, "none"],
  ["two hands", 7, "shells"],
] as const)("%s is laid alike, however many numbers are kept at a time", (_, seed, style) => {
  const drawn = randomSpec(seed, { free: true });
  const spec = { ...drawn, comping: { style, layout: "one track" } as const };
  const options = checkOptions({});
  const take = readTake(generateTake(seed, spec).bytes, options);
  const strokes = strokesOf(take.notes, partHands(take, options).hands);
  const evidence = lineEvidence(take.notes, strokes, spec.chart);
  const { states } = evidence.form;
  const [from, to] = [strokes.time[0]!, strokes.time[strokes.count - 1]!];
  const grid = freeGrid(60 / spec.time.tempo, from, to, UNREST.known);
  const even = new Float64Array(states).fill(-Math.log(states));
  const start = { begin: even, end: even, known: null, pins: [], pauses: 1e-3 };
  const whole = layOnLattice(evidence, grid, start);
  expect(whole!.beats.length).toBeGreaterThan(60);
  // From a column at a time to a few stretches; pieces of rows hold 65,536 numbers.
  for (const stretch of [1, 10_000, 70_000]) {
    expect(layOnLattice(evidence, grid, start, stretch)).toEqual(whole);
  }
});

// Each stroke on its chord is likelier there than anywhere: the product over an hour is beyond the largest number.
test("an hour of chord tones on known beats is laid as surely at its end as at its beginning", () => {
  const chart = parseChart("key: C\n| Cmaj7 | A7 | Dm7 | G7 | Ebmaj7 | Ab7 | Dbmaj7 | B7 |");
  const choruses = 220;
  const notes = Array.from({ length: choruses }, () => chart.bars)
    .flat()
    .flatMap(({ chords }, bar) => {
      const { rootClass, tones } = chords[0]!.chord!;
      return [0, 1, 2, 3, 2, 1, 0, 1].map((tone, k) => ({
        onset: 2 + (4 * bar + k / 2) * 0.5,
        duration: 0.22,
        pitch: 60 + rootClass + tones[tone]!.semitones,
        tick: 0,
        part: "t1",
      }));
    });
  const take = takeOf(notes, {});
  const hands = take.notes.map(() => ({ hand: "right" as const, solo: true, margin: 1 }));
  const evidence = lineEvidence(take.notes, strokesOf(take.notes, hands), chart);
  const even = new Float64Array(evidence.form.states).fill(-Math.log(evidence.form.states));
  const grid = knownGrid(Float64Array.from({ length: 32 * choruses + 4 }, (_, k) => 1.5 + k * 0.5));
  const laid = layOnLattice(evidence, grid, { begin: even, end: even, known: null, pins: [], pauses: 0 })!;
  expect(laid.evidence).toBeGreaterThan(Math.log(Number.MAX_VALUE));
  expect(laid.beats.length).toBeGreaterThan(32 * choruses);
  const { sure } = laid;
  expect(Math.min(...sure)).toBeGreaterThan(0.99);
  expect(Math.max(...sure)).toBeLessThan(1.001);
});
