import { describe, expect, test } from "vitest";
import { byFreely, guessed } from "../../src/align/by-freely.ts";
import { FREE_TABLES } from "../../src/align/free/free-tables.ts";
import { layFreely } from "../../src/align/free/lay-freely.ts";
import { otherReadings } from "../../src/align/free/other-readings.ts";
import { align } from "../../src/align/index.ts";
import { parseChart } from "../../src/chart/index.ts";
import type { Chart } from "../../src/chart/types.ts";
import { partHands } from "../../src/parting/part-hands.ts";
import { positionAt, type Take, type TimeMap } from "../../src/take/index.ts";
import { scoreBeats } from "./beat-score.ts";
import { drawPerformance } from "./simulator/index.ts";
import { CHART, handsOf, waltz } from "./waltz.ts";

/** The waltz (its beats are known by how it is made) on bars of its meter without chords. */
const BARE = parseChart("key: C\nmeter: 3/4\n| N.C. |");
const UNTOLD = { pins: [], usual: null };

const OPTIONS = { method: "auto", tempo: null, anchors: [] } as const;
const twice = waltz(undefined, 2);
const mapOf = (from: number): TimeMap => twice.beats.map((seconds, k) => ({ seconds, position: from + k }));
const NO_BEAT = { method: "rubato", map: mapOf(0) } as const;

describe("a take that both hands play freely", () => {
  const { take } = twice;
  const hands = handsOf(take);

  test("is laid where no beat was heard, from two hundred notes on", () => {
    expect(byFreely(take, CHART, hands, OPTIONS, NO_BEAT)).not.toBeNull();
    for (const [notes, isLaid] of [
      [200, true],
      [199, false],
    ] as const) {
      const part = { ...take, notes: take.notes.slice(0, notes) };
      expect(byFreely(part, CHART, hands.slice(0, notes), OPTIONS, NO_BEAT) !== null, `${notes}`).toBe(
        isLaid,
      );
    }
  });

  test("keeps the beat that was heard where that fits the chords, and gives up one that lies a bar beside them", () => {
    const heard = (from: number) => ({ method: "tracked", map: mapOf(from) }) as const;
    expect(byFreely(take, CHART, hands, OPTIONS, heard(0))).toBeNull();
    expect(byFreely(take, CHART, hands, OPTIONS, heard(3))).not.toBeNull();
  });

  test("keeps the tempo that was told, within a quarter", () => {
    for (const [tempo, beats] of [
      [80, 97],
      [99, 97],
      [65, 97],
      [102, null],
      [63, null],
    ] as const) {
      const laid = byFreely(take, CHART, hands, { ...OPTIONS, tempo }, NO_BEAT);
      expect(laid?.map.length ?? null, `${tempo}`).toBe(beats);
    }
  });

  test("is left alone where one hand has fewer than three notes in twenty", () => {
    for (const [share, isLaid] of [
      [0.16, true],
      [0.14, false],
    ] as const) {
      const few = hands.map((hand, i) => ({ ...hand, solo: i < share * hands.length }));
      expect(byFreely(take, CHART, few, OPTIONS, NO_BEAT) !== null, `${share}`).toBe(isLaid);
    }
  });

  test("goes through the pins that were set, in the chorus that they name", () => {
    // The third bar of the waltz, said to be the fourth bar of the second chorus.
    const pin = { seconds: twice.beats[6]!, chorus: 2, bar: 4, beat: 1 };
    const laid = byFreely(take, CHART, hands, { ...OPTIONS, anchors: [pin] }, NO_BEAT);
    // Within half a beat: the map is then bent through the pin.
    expect(Math.abs(positionAt(laid!.map, pin.seconds) - (16 + 3) * 3)).toBeLessThan(0.5);
    expect(laid!.alternatives).toEqual([]);
  });

  test("is not made of keys drawn blindly at times drawn blindly, with chords or without", () => {
    // Of fourteen seeds the one whose beats seem likeliest.
    const scattered = { ...take, notes: scatter(take.notes, 7) };
    for (const chart of [CHART, BARE]) {
      expect(byFreely(scattered, chart, hands, OPTIONS, NO_BEAT)).toBeNull();
    }
  });

  // How such takes are played is told by the literature on tempo in phrases (tests/align/simulator/figures.ts).
  test("is not laid by beats where harmony alone fits its chords much better", () => {
    const { take: bent, spec } = drawPerformance("rubato", 1029);
    const own = partHands(bent, { soloPart: null, soloStaff: null, soloHand: null }).hands;
    expect(align(bent, spec.chart, own, OPTIONS).method).toBe("rubato");
  });

  test("is as sure as its beats are even, and never surer than .97", () => {
    const sure = byFreely(take, CHART, hands, OPTIONS, NO_BEAT)!.confidence(1);
    const stirred = waltz((note) => ({ ...note, onset: note.onset + 0.12 * Math.sin(2.1 * note.onset) }), 2);
    const less = byFreely(stirred.take, CHART, hands, OPTIONS, { method: "rubato", map: mapOf(0) });
    expect(sure).toBeLessThanOrEqual(0.97);
    expect(less?.confidence(1) ?? 0).toBeLessThan(sure);
  });
});

/** Keys and times drawn blindly, as many and as loud as these. */
function scatter(notes: Take["notes"], seed: number): Take["notes"] {
  let at = 0;
  let state = seed;
  const draw = () => {
    state = (state * 16807) % 2147483647;
    return state / 2147483647;
  };
  return notes.map((note) => {
    at += 0.6 * draw();
    return { ...note, onset: at, pitch: 36 + Math.floor(60 * draw()) };
  });
}

describe("a freely played take without chords", () => {
  const { take } = twice;
  const hands = handsOf(take);
  const laid = byFreely(take, BARE, hands, OPTIONS, NO_BEAT)!;

  test("is laid on its beats, which are truly known here, but half or twice as fast or other bars may be right", () => {
    const beats = laid.map.map(({ seconds }) => seconds);
    expect(scoreBeats([...twice.beats], beats).f).toBeGreaterThan(0.95);
    // Of people's bars without chords a fifth to a half are right: nothing is said to be surer.
    expect(laid.confidence(4)).toBeLessThan(0.55);
    expect(laid.alternatives.map(({ why }) => why).sort()).toEqual([
      "bars begin one beat earlier",
      "bars begin one beat later",
      "half as fast",
      "twice as fast",
    ]);
    const others = laid.alternatives.reduce((sum, { score }) => sum + score, 0);
    expect(laid.confidence(4)).toBeCloseTo(0.97 * (1 - others), 1);
  });

  test("is read as another reading says when its pins are set, or its tempo told", () => {
    const earlier = laid.alternatives.find(({ why }) => why === "bars begin one beat earlier")!;
    const moved = byFreely(take, BARE, hands, { ...OPTIONS, anchors: earlier.pins! }, NO_BEAT)!;
    const at = twice.beats[30]!;
    const beside = positionAt(moved.map, at) - positionAt(laid.map, at);
    expect(((Math.round(beside) % 3) + 3) % 3).toBe(1);
    const faster = laid.alternatives.find(({ why }) => why === "twice as fast")!;
    const doubled = byFreely(take, BARE, hands, { ...OPTIONS, tempo: faster.tempo }, NO_BEAT)!;
    expect(doubled.map.length).toBeGreaterThan(1.9 * laid.map.length);
    // What was told is not asked again; where bars begin still is.
    expect(doubled.alternatives.every(({ pins }) => pins !== undefined)).toBe(true);
  });

  test("that is laid by a beat heard otherwise is hardly sure, which chords would tell", () => {
    expect([0.9, 0.05].map((sure) => guessed(BARE, () => sure)(1))).toEqual([0.1, 0.05]);
    expect(guessed(CHART, () => 0.9)(1)).toBe(0.9);
  });

  // Of steady takes of our own demo, fewer than two beats in three are struck in some: strokes beside it take no beat away.
  test("keeps a beat that was heard, whatever falls beside it", () => {
    const map = twice.beats.map((seconds, k) => ({ seconds: seconds + 0.19, position: k }));
    expect(byFreely(take, BARE, hands, OPTIONS, { method: "tracked", map })).toBeNull();
  });

  test("is laid so from end to end, and an answer of the page is read freely too", () => {
    const bent = waltz((note) => ({ ...note, onset: note.onset + 0.2 * Math.sin(7.3 * note.onset) }), 2);
    const asked = align(bent.take, BARE, hands, OPTIONS);
    expect(asked.method).toBe("tracked");
    expect(asked.confidence).toBeLessThan(0.55);
    const half = asked.alternatives!.find(({ why }) => why === "half as fast")!;
    const told = align(bent.take, BARE, hands, { ...OPTIONS, tempo: half.tempo });
    expect(told.tempo!.median / half.tempo).toBeGreaterThan(0.9);
    expect(told.tempo!.median / half.tempo).toBeLessThan(1.1);
    const later = asked.alternatives!.find(({ pins }) => pins !== undefined)!;
    const pinned = align(bent.take, BARE, hands, { ...OPTIONS, anchors: later.pins! });
    expect(pinned.bars[0]!.start).toBeCloseTo(later.pins![0]!.seconds, 3);
  });

  test("is said to have no beat where fewer than some nine beats in twenty would be met", () => {
    for (const [depth, pace, isLaid] of [
      [0.3, 7.3, true],
      [0.15, 2.1, false],
    ] as const) {
      const bent = waltz((note) => ({ ...note, onset: note.onset + depth * Math.sin(pace * note.onset) }), 2);
      expect(byFreely(bent.take, BARE, hands, OPTIONS, NO_BEAT) !== null, `${depth}`).toBe(isLaid);
    }
  });

  test("of which one chord is written has the same doubt, and one whose chords change has none", () => {
    const still = parseChart("key: C\nmeter: 3/4\n| C |");
    const on = (chart: Chart) => otherReadings(layFreely(take.notes, chart, FREE_TABLES)!, UNTOLD).own;
    expect(on(still)).toBeLessThan(0.6);
    expect(on(CHART)).toBeGreaterThan(0.95);
  });
});
