import { describe, expect, test } from "vitest";
import { byFreely } from "../../src/align/by-freely.ts";
import type { TimeMap } from "../../src/take/index.ts";
import { CHART, handsOf, waltz } from "./waltz.ts";

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

  test("is left alone where a tempo was told, or one hand has fewer than three notes in twenty", () => {
    expect(byFreely(take, CHART, hands, { ...OPTIONS, tempo: 80 }, NO_BEAT)).toBeNull();
    for (const [share, isLaid] of [
      [0.16, true],
      [0.14, false],
    ] as const) {
      const few = hands.map((hand, i) => ({ ...hand, solo: i < share * hands.length }));
      expect(byFreely(take, CHART, few, OPTIONS, NO_BEAT) !== null, `${share}`).toBe(isLaid);
    }
  });

  test("is not made of keys drawn blindly at times drawn blindly", () => {
    let at = 0;
    let seed = 7;
    const draw = () => {
      seed = (seed * 16807) % 2147483647;
      return seed / 2147483647;
    };
    const notes = take.notes.map((note) => {
      at += 0.6 * draw();
      return { ...note, onset: at, pitch: 36 + Math.floor(60 * draw()) };
    });
    const scattered = { ...take, notes };
    expect(byFreely(scattered, CHART, hands, OPTIONS, NO_BEAT)).toBeNull();
  });

  test("is as sure as its beats are even, and never surer than .95", () => {
    const sure = byFreely(take, CHART, hands, OPTIONS, NO_BEAT)!.confidence(1);
    const stirred = waltz((note) => ({ ...note, onset: note.onset + 0.12 * Math.sin(2.1 * note.onset) }), 2);
    const less = byFreely(stirred.take, CHART, hands, OPTIONS, { method: "rubato", map: mapOf(0) });
    expect(sure).toBeLessThanOrEqual(0.95);
    expect(less?.confidence(1) ?? 0).toBeLessThan(sure);
  });
});
