import { describe, expect, it } from "vitest";
import {
  CLICK_EVERY,
  delayOf,
  delayWords,
  readDelays,
  TAPS,
  withDelay,
  withoutDelay,
} from "../../client/record/delay-model.ts";

const clicks = Array.from({ length: TAPS }, (_, i) => 12 + i * CLICK_EVERY);
/** Unevenness of a tapper in milliseconds, drawn once by hand: mean 0, standard deviation about 20. */
const HAND = [12, -25, 4, 31, -8, -14, 22, 3, -30, 17, -2, 9, -19, 26, -11, -15];
const tapped = (late: number, unevenness = 1) =>
  clicks.map((click, i) => click + late + (unevenness * HAND[i]!) / 1000);
const measured = (taps: readonly number[]) => {
  const result = delayOf(clicks, taps);
  if (result.kind === "refused") throw new Error(result.why);
  return result;
};

describe("the delay between click and key", () => {
  // An even tapper scatters by some 20 ms (Repp 2005 [memory]); the median of sixteen is then sure to about 6 ms.
  it.each([0.01, 0.08, 0.2, 0.35, 0.44])("is found to the uneven hand's sureness: %s s", (late) => {
    expect(Math.abs(measured(tapped(late)).seconds - late)).toBeLessThan(0.012);
  });

  it("is not moved by four missed taps, a bounce, or one tap far off", () => {
    const even = tapped(0.1);
    expect(measured(even.slice(4)).seconds).toBeCloseTo(0.1, 1);
    expect(measured([...even, even[3]! + 0.05]).taps).toBe(TAPS);
    const stray = even.map((tap, i) => (i === 7 ? tap + 0.25 : tap));
    expect(Math.abs(measured(stray).seconds - 0.1)).toBeLessThan(0.015);
  });

  it("is none where taps come before the click, as people's do: no way is shorter than none", () => {
    expect(measured(tapped(-0.03)).seconds).toBe(0);
    expect(measured(tapped(-0.09)).seconds).toBe(0);
  });

  it("is refused for too few taps, and for taps that scatter", () => {
    expect(delayOf(clicks, tapped(0.1).slice(0, 11))).toMatchObject({ kind: "refused" });
    expect(measured(tapped(0.1).slice(0, 12)).taps).toBe(12);
    expect(delayOf(clicks, [])).toMatchObject({ kind: "refused" });
    const wild = delayOf(clicks, tapped(0.1, 4));
    expect(wild).toMatchObject({ kind: "refused", why: expect.stringMatching(/ms apart/) });
    // The bound is a standard error of the median of 15 ms: a deviation of 48 ms in sixteen taps (1.2533 s / 4).
    // Half of the taps 30 ms early, half late: the median deviation is 30 ms, the deviation that it stands for 44 ms.
    const two = (by: number) => clicks.map((click, i) => click + 0.1 + (i % 2 === 0 ? by : -by));
    expect(delayOf(clicks, two(0.03)).kind).toBe("measured");
    expect(delayOf(clicks, two(0.034)).kind).toBe("refused");
  });

  it("is kept by the name of what is played on, and can be forgotten", () => {
    const two = withDelay(withDelay({}, "Stage piano", 0.084), "the drawn keys", 0.12);
    expect(withoutDelay(two, "Stage piano")).toEqual({ "the drawn keys": 0.12 });
    expect(delayWords("the drawn keys", 0.12)).toBe("The drawn keys: 120 ms, taken off what is recorded");
    expect(readDelays(JSON.stringify(two))).toEqual(two);
    expect(readDelays(null)).toEqual({});
    expect(readDelays("{")).toEqual({});
    expect(readDelays('{"a":"soon","b":-1,"c":0.05}')).toEqual({ c: 0.05 });
  });
});
