/**
 * Bars that a player leaves out, or plays twice, over a click: takes written by arithmetic with a bar cut out or put in,
 * and people's solos as they were played, of which nothing may be said.
 */
import { describe, expect, it } from "vitest";
import { align } from "../../src/align/index.ts";
import type { AlignOptions } from "../../src/align/types.ts";
import { formChart, parseChart } from "../../src/chart/index.ts";
import { partHands } from "../../src/parting/part-hands.ts";
import { layHuman } from "./human-conditions.ts";
import { type PlayedNote, readSolos, SOLOS_THERE, takeOf } from "./human-solos.ts";

const BLUES = formChart("blues-basic", "F");
/** Two chords to the bar, so that half a bar can be heard. */
const TURNS = parseChart(
  "key: Bb\n| Bb6 G7 | Cm7 F7 | Dm7 G7 | Cm7 F7 | Bb7 D7 | Eb7 Edim7 | Dm7 G7 | Cm7 F7 | Bb6 Bdim7 | Cm7 Dbdim7 | Dm7 G7 | Bb6 F7 |",
);
const BARS = 12;
const BEAT = 60 / 132;
/** Semitones over the root by eighths of a bar. */
const FIGURES = [
  [0, 4, 7, 9, 10, 9, 7, 4],
  [4, 7, 10, 14, 12, 10, null, null],
  [null, null, 7, 9, 10, 7, 4, 0],
] as const;

/** Beats of the form that are played, one by one. */
function formWith(change: "none" | "missing" | "extra", at: number, beats: number): number[] {
  const all = Array.from({ length: 4 * BARS * 4 }, (_, k) => k);
  if (change === "none") return all;
  if (change === "missing") return all.filter((k) => k < at || k >= at + beats);
  return [...all.slice(0, at + beats), ...all.slice(at)];
}

/** A line over shells on a click whose bars the file states, going through the given beats of the form. */
function irregularIn(
  played: readonly number[],
  withHand = true,
  chart = BLUES,
  options: Partial<AlignOptions> = {},
) {
  const notes: PlayedNote[] = [];
  played.forEach((k, n) => {
    const bar = Math.floor(k / 4);
    const { chords } = chart.bars[bar % BARS]!;
    const { chord } = k % 4 < 2 ? chords[0]! : chords.at(-1)!;
    const root = chord!.rootClass % 12;
    const strike = (pitch: number, place: number, beats: number, part: string) => {
      const onset = (n + place + 8) * BEAT + 0.006 * Math.sin(2.4 * notes.length);
      const tick = Math.round((onset / BEAT) * 480);
      notes.push({ pitch, onset, duration: beats * BEAT, tick, part });
    };
    for (const half of [0, 1]) {
      const step = FIGURES[bar % FIGURES.length]![2 * (k % 4) + half];
      if (step != null) strike(60 + root + step, half * 0.6, 0.4, "t1");
    }
    if (!withHand || k % (chords.length === 1 ? 4 : 2) !== 0) return;
    for (const { role, semitones } of chord!.tones) {
      if (role === "root" || role === "third" || role === "seventh")
        strike(36 + root + semitones, 0, 1.8, "t2");
    }
  });
  const tempos = [{ tick: 0, seconds: 0, quartersPerMinute: 132 }];
  const take = takeOf(notes, { tempos, stated: true, meterStated: true });
  const { hands } = partHands(take, { soloPart: null, soloStaff: null, soloHand: null });
  return align(take, chart, hands, { method: "auto", tempo: null, anchors: [], ...options });
}

describe("bars that are left out or put in over a click", () => {
  it("are not told of a take that keeps its form", () => {
    for (const withHand of [true, false]) {
      const laid = irregularIn(formWith("none", 0, 0), withHand);
      expect(laid.method).toBe("click");
      expect(laid.irregular).toBeUndefined();
      expect(laid.warnings.map(({ code }) => code)).not.toContain("bar-missing");
    }
  });

  it.each([
    ["missing", 2 * BARS * 4 + 16, 4],
    ["missing", BARS * 4 + 32, 4],
    ["extra", 2 * BARS * 4 + 16, 4],
    ["extra", BARS * 4 + 16, 4],
    ["missing", 2 * BARS * 4 + 18, 2],
    ["extra", 2 * BARS * 4 + 16, 2],
    ["missing", 2 * BARS * 4 + 16, 8],
    ["extra", BARS * 4 + 16, 8],
    ["missing", 2 * BARS * 4 + 17, 1],
    ["missing", BARS * 4 + 17, 1],
  ] as const)("are named with their place: %s from beat %d of the form on, %d beats", (kind, at, beats) => {
    const laid = irregularIn(formWith(kind, at, beats), true, beats < 4 ? TURNS : BLUES);
    expect(laid.irregular).toHaveLength(1);
    const [found] = laid.irregular!;
    expect(found).toMatchObject({ kind, beats });
    // Where chords do not change, nobody hears to the bar which one is missing.
    const bar = (found!.chorus - 1) * BARS + found!.bar - 1;
    expect(Math.abs(bar - at / 4)).toBeLessThanOrEqual(2);
    const warning = laid.warnings.find(({ code }) => code === `${beats === 1 ? "beat" : "bar"}-${kind}`);
    expect(warning?.message).toContain(`bar ${found!.bar} of chorus ${found!.chorus}`);
    // Bars that lie beside the form are not said to be sure.
    const numbered = laid.bars.map((one) => ({ ...one, number: (one.chorus - 1) * BARS + one.bar - 1 }));
    for (const one of numbered) {
      const beside = found!.side === "after" ? one.number >= bar : one.number < bar;
      // One in ten such places may be none [practice].
      if (beside) expect(one.confidence).toBeCloseTo(0.1, 1);
      else expect(one.confidence).toBeGreaterThan(0.7);
    }
    // The click goes on: no bar is told as tempo.
    expect(laid.tempo!.slowest).toBeCloseTo(132, 0);
    expect(laid.tempo!.fastest).toBeCloseTo(132, 0);
  });

  it("are not told where somebody has pinned the bars", () => {
    const played = formWith("missing", 2 * BARS * 4 + 16, 4);
    const anchors = [{ seconds: 8 * BEAT, chorus: 1, bar: 1, beat: 1 }];
    expect(irregularIn(played).irregular).toBeDefined();
    expect(irregularIn(played, true, BLUES, { anchors }).irregular).toBeUndefined();
  });
});

describe.skipIf(!SOLOS_THERE)("people's solos as they were played on a click", () => {
  it("leave out no bar and no beat", () => {
    for (const solo of readSolos(0, 8)) {
      expect(layHuman(solo, "click, beat 1 stated").irregular, solo.id).toBe(0);
    }
  });
});
