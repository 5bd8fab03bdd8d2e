/** Tapping the beat, without a page: what taps mean is arithmetic of the clock (half a second a beat is 120 a minute). */
import { describe, expect, it } from "vitest";
import * as tap from "../../client/take/tap-model.ts";
import { sampleAccount } from "./sample-account.ts";

const { chart, alignment } = sampleAccount({ choruses: 2 });
const account = { chart, alignment };

/** So many taps, each so many seconds after the one before. */
function taps(times: number, seconds: number, state = tap.NOT_TAPPED): tap.TapState {
  return Array.from({ length: times }, (_, k) => 1 + k * seconds).reduce(tap.tapped, state);
}

describe("taps", () => {
  it("are told with their pace", () => {
    expect(tap.tapWords(tap.NOT_TAPPED, chart)).toBe("");
    expect(tap.tapWords(taps(2, 0.5), chart)).toBe("Two taps");
    expect(tap.tapWords(taps(9, 0.5), chart)).toBe("Nine taps, about 120 a minute");
  });

  it("that make no beat are told with what is wrong, and place nothing", () => {
    const uneven = [1, 1.05, 1.1].reduce(tap.tapped, tap.NOT_TAPPED);
    expect(tap.tapWords(uneven, chart)).toMatch(/^Three taps\. .+\.$/);
    expect(tap.placement(uneven, account)).toBeNull();
  });

  it("count from the place of the first: nine beats from bar 2 reach the first beat of bar 4", () => {
    const kept = tap.placement(tap.tapFrom(taps(9, 0.5), { bar: 2 }), account)!;
    expect(kept.anchors.map(({ bar, beat }) => [bar, beat])).toEqual([
      [2, 1],
      [3, 1],
      [4, 1],
    ]);
    expect(kept.words).toBe("The chart goes through your taps: three moments pinned.");
  });

  it("may stand for bars: five of them reach bar 5", () => {
    const kept = tap.placement(tap.tapEvery(taps(5, 2), "bar"), account)!;
    expect(kept.anchors.map(({ bar }) => bar)).toEqual([1, 2, 3, 4, 5]);
  });

  it("are taken back one by one or thrown away", () => {
    expect(tap.takeBackTap(taps(4, 0.5)).taps).toHaveLength(3);
    expect(tap.throwAway(taps(4, 0.5)).taps).toEqual([]);
  });

  it("are kept to a tenth of a millisecond, and none before the take", () => {
    expect(tap.tapped(tap.tapped(tap.NOT_TAPPED, -0.05), 1.234567).taps).toEqual([0, 1.2346]);
  });
});

describe("playing", () => {
  it("puts old taps and old trouble away, and decides nothing while it sounds", () => {
    const before = tap.failed(taps(4, 0.5), new Error("This browser plays no sound."));
    expect(tap.tapWords(before, chart)).toBe("This browser plays no sound.");
    const begun = tap.startPlaying(before);
    expect([begun.taps, begun.trouble, begun.playing]).toEqual([[], null, "loading"]);
    const playing = taps(4, 0.5, tap.sounding(begun, true));
    expect(tap.isToDecide(playing)).toBe(false);
    expect(tap.isToDecide(tap.sounding(playing, false))).toBe(true);
  });

  it("begins two seconds before the selected bar, never before the take", () => {
    const bars = { bar: (_: number, bar: number) => alignment.bars[bar - 1] ?? null };
    const at = (bar: number) => ({ kind: "bar", chorus: 1, bar }) as const;
    expect(tap.playFrom(bars, at(5))).toBe(alignment.bars[4]!.start - 2);
    expect(tap.playFrom(bars, at(1))).toBe(0);
    expect(tap.playFrom(bars, at(99))).toBe(0);
    expect(tap.playFrom(bars, { kind: "none" })).toBe(0);
  });
});

describe("the selected bar", () => {
  const bar = { kind: "bar", chorus: 2, bar: 3 } as const;

  it("is where the first tap is expected", () => {
    expect(tap.tapFromBar(tap.NOT_TAPPED, bar, 12).first).toEqual({ chorus: 2, bar: 3, beat: 1 });
    expect(tap.tapFromBar(tap.NOT_TAPPED, { ...bar, bar: 14 }, 12).first.bar).toBe(12);
  });

  it("moves nothing where there are taps, or where it is a bar before the chorus or of every chorus", () => {
    const begun = taps(2, 0.5);
    expect(tap.tapFromBar(begun, bar, 12)).toBe(begun);
    expect(tap.tapFromBar(tap.NOT_TAPPED, { ...bar, bar: 0 }, 12)).toBe(tap.NOT_TAPPED);
    expect(tap.tapFromBar(tap.NOT_TAPPED, { ...bar, chorus: null }, 12)).toBe(tap.NOT_TAPPED);
  });
});
