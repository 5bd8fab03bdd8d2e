/** Whether a chart in the wrong meter is noticed by what comes back in what both hands play. */
import { describe, expect, test } from "vitest";
import { generateTake } from "../../corpus/generator/generate-take.ts";
import { randomSpec } from "../../corpus/generator/random-spec.ts";
import { quartersOfBeat } from "../../src/align/free/free-form.ts";
import { align } from "../../src/align/index.ts";
import { inThrees, METER_WEIGHTS } from "../../src/align/meter-doubt.ts";
import type { NoteHand } from "../../src/align/types.ts";
import type { Chart } from "../../src/chart/index.ts";
import { readTake } from "../../src/ingest/index.ts";
import { partHands } from "../../src/parting/part-hands.ts";
import type { Take } from "../../src/take/index.ts";
import { PERFORMANCES_THERE, readTwoHanded } from "./two-handed.ts";
import { CHART, handsOf, waltz } from "./waltz.ts";
import { otherMeter, rebarred, stretched } from "./wrong-meter.ts";

const laid = (take: Take, chart: Chart, hands: readonly NoteHand[] = handsOf(take)) =>
  align(take, chart, hands, { method: "auto", tempo: null, anchors: [] });
const doubted = ({ warnings }: ReturnType<typeof laid>) =>
  warnings.some(({ code }) => code === "meter-doubted");

describe("a chart in the wrong meter", () => {
  test("is doubted of a waltz that stands in bars of four, and the waltz in its own bars is not", () => {
    const { take } = waltz(undefined, 2);
    const [own, four] = [laid(take, CHART), laid(take, rebarred(CHART, { beats: 4, unit: 4 }))];
    expect(doubted(own)).toBe(false);
    expect(own.confidence).toBeGreaterThan(0.9);
    expect(doubted(four)).toBe(true);
    expect(four.confidence).toBeLessThan(0.5);
    // A pin says that somebody knows where the bars lie.
    const anchors = [{ seconds: own.bars[0]!.start, chorus: 1, bar: 1, beat: 1 }];
    const pinned = align(take, rebarred(CHART, { beats: 4, unit: 4 }), handsOf(take), {
      method: "auto",
      tempo: null,
      anchors,
    });
    expect(doubted(pinned)).toBe(false);
  });

  test("is doubted of takes of the generator over a click, and none of those that are right", () => {
    let found = 0;
    for (let seed = 31_000; seed < 31_016; seed += 2) {
      const spec = randomSpec(seed);
      const take = readTake(generateTake(seed, spec).bytes, { name: `${seed}.mid` });
      const { hands } = partHands(take, { soloPart: null, soloStaff: null, soloHand: null });
      expect(doubted(laid(take, spec.chart, hands)), `${seed}`).toBe(false);
      const wrong = laid(take, rebarred(spec.chart, otherMeter(spec.chart.meter)!), hands);
      if (doubted(wrong) || wrong.confidence < 0.5) found++;
    }
    expect(found).toBeGreaterThan(6);
  });

  test("is doubted where its bars are met and only their beats are not, without a click, and the right one is not", () => {
    // Chords in the same bars, of three beats where four are played.
    let found = 0;
    for (let seed = 31_001; seed < 31_017; seed += 2) {
      const spec = randomSpec(seed, { free: true });
      const take = readTake(generateTake(seed, spec).bytes, { name: `${seed}.mid` });
      const { hands } = partHands(take, { soloPart: null, soloStaff: null, soloHand: null });
      const own = laid(take, spec.chart, hands);
      expect(doubted(own), `${seed}`).toBe(false);
      const wrong = laid(take, stretched(spec.chart, { beats: 3, unit: 4 }), hands);
      expect(wrong.confidence, `${seed}`).toBeLessThan(own.confidence + 0.02);
      if (doubted(wrong) || wrong.confidence < 0.5) found++;
    }
    expect(found).toBeGreaterThan(3);
  });

  test("is not looked for where nothing plays beside the line, or in fewer beats than a chorus of blues has", () => {
    const { take } = waltz(undefined, 2);
    const four = rebarred(CHART, { beats: 4, unit: 4 });
    const alone = take.notes.map(() => ({ hand: "right" as const, solo: true, margin: 1 }));
    expect(doubted(laid(take, four, alone))).toBe(false);
    const short = { ...take, notes: take.notes.filter(({ onset }) => onset < 30) };
    expect(inThrees(short.notes, laid(take, CHART).map, 1)).toBeNull();
  });
});

// The weights were fitted on all of these, each composer's pieces left out in turn on their right side as well.
describe.skipIf(!PERFORMANCES_THERE)("performances of people, on their true beats", () => {
  test("go in threes where their bars have three beats, and in fours where they have two or four", () => {
    const [constant, weight] = METER_WEIGHTS;
    const rows = readTwoHanded().map(({ id, take, chart, beats }) => {
      const quarters = quartersOfBeat(chart);
      const map = beats.map((seconds, k) => ({ seconds, position: k * quarters }));
      const inBar = (4 * chart.meter.beats) / chart.meter.unit / quarters;
      return { id, three: inBar === 3, odds: constant + weight * inThrees(take.notes, map, quarters)! };
    });
    for (const { id, three, odds } of rows) expect(odds > 0, id).toBe(three);
  });
});
