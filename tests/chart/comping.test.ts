import { describe, expect, it } from "vitest";
import { type Heard, hearStretches, meanHeard } from "../../src/chart/comping.ts";
import { noteAt } from "./comping-take.ts";

/** Notes as [pitch, onset, duration] in seconds. */
const hear = (notes: readonly (readonly [number, number, number])[], ...boundaries: number[]) =>
  hearStretches(
    notes.map(([pitch, onset, duration], index) => noteAt(index + 1, pitch, onset, duration, 60)),
    boundaries,
  );
/** What is heard, without the pitch classes that are not. */
const loud = (weights: readonly number[]) =>
  Object.fromEntries(
    weights.map((weight, pitchClass) => [pitchClass, weight]).filter(([, weight]) => weight),
  );
const shares = (heard: Heard) => loud(heard.classes);
const bass = (heard: Heard) => loud(heard.bass);

describe("what the comping hand plays in a stretch", () => {
  it("is nothing in silence", () => {
    expect(hear([], 0, 1, 2).map(({ weight, ...all }) => [weight, shares({ weight, ...all })])).toEqual([
      [0, {}],
      [0, {}],
    ]);
    expect(hear([[60, 0, 1]])).toEqual([]);
    expect(hear([[60, 0, 1]], 0)).toEqual([]);
  });

  it("is its pitch classes, in any octave, in equal shares when they sound alike", () => {
    const [heard] = hear(
      [
        [60, 0, 1],
        [64, 0, 1],
        [76, 0, 1],
        [67, 0, 1],
      ],
      0,
      1,
    );
    expect(shares(heard!)).toEqual({ 0: 0.25, 4: 0.5, 7: 0.25 });
  });

  it("counts a held note for more than a stab, and a stab for more than its length", () => {
    const [heard] = hear(
      [
        [60, 0, 1],
        [64, 0, 0.1],
      ],
      0,
      1,
    );
    const { 0: held, 4: stab } = shares(heard!);
    expect(held).toBeGreaterThan(2 * stab!);
    expect(stab! / held!).toBeGreaterThan(0.1);
  });

  it("hears a held note in every stretch that it lasts through, and its stroke in the first", () => {
    const heard = hear([[60, 0, 2.5]], 0, 1, 2, 3, 4);
    expect(heard.map(shares)).toEqual([{ 0: 1 }, { 0: 1 }, { 0: 1 }, {}]);
    const [struck, held, half] = heard.map(({ weight }) => weight);
    expect(struck! - held!).toBeCloseTo(0.25, 12);
    expect(held).toBeCloseTo(1, 12);
    expect(half).toBeCloseTo(0.5, 12);
    expect(heard[3]!.weight).toBe(0);
  });

  it("hears a note by its share of the stretch, in long stretches and in short ones", () => {
    const [slow] = hear([[60, 0, 2]], 0, 4);
    const [fast] = hear([[60, 0, 0.2]], 0, 0.4);
    expect(slow!.weight).toBeCloseTo(fast!.weight, 12);
    expect(hear([[60, 10, 2]], 10, 14)[0]).toEqual(slow);
  });

  it("hears a note struck just before a bar line and held over it with what follows", () => {
    const early = hear([[60, 0.8, 1.2]], 0, 1, 2);
    expect(early.map(shares)).toEqual([{}, { 0: 1 }]);
    // As if it were struck on the line.
    expect(early[1]).toEqual(hear([[60, 1, 1]], 0, 1, 2)[1]);
    // Struck in the first part of the bar it belongs there; so does one that is let go at the line.
    expect(hear([[60, 0.65, 1.35]], 0, 1, 2).map(shares)).toEqual([{ 0: 1 }, { 0: 1 }]);
    expect(hear([[60, 0.8, 0.25]], 0, 1, 2).map(({ weight }) => weight > 0.1)).toEqual([true, false]);
    // Nothing follows the last bar.
    expect(shares(hear([[60, 1.8, 1]], 0, 1, 2)[1]!)).toEqual({ 0: 1 });
    // Bars of another length, later in the take.
    expect(hear([[60, 13, 4]], 10, 14, 18).map(shares)).toEqual([{}, { 0: 1 }]);
    expect(hear([[60, 12.5, 4]], 10, 14, 18).map(shares)).toEqual([{ 0: 1 }, { 0: 1 }]);
  });

  it("hears the steps of a walking bass on weak beats for half", () => {
    const [heard] = hear(
      [
        [36, 0, 0.5],
        [38, 0.5, 0.5],
      ],
      0,
      1,
    );
    expect(shares(heard!)[0]).toBeCloseTo(2 / 3, 12);
    expect(shares(heard!)[2]).toBeCloseTo(1 / 3, 12);
    // On the second beat of four, a note is on a strong place still; held over, it counts in full.
    expect(hear([[60, 4.3, 0.5]], 4, 5)[0]!.weight).toBeCloseTo(0.75, 12);
    const [weak, next] = hear([[60, 4.5, 1.5]], 4, 5, 6);
    expect(weak!.weight).toBeCloseTo(0.375, 12);
    expect(next!.weight).toBeCloseTo(1, 12);
  });

  it("leaves out what sounds before the first line or after the last", () => {
    expect(hear([[60, 0, 1]], 1, 2)[0]!.weight).toBe(0);
    expect(hear([[60, 2, 1]], 1, 2)[0]!.weight).toBe(0);
    expect(hear([[60, 3, 1]], 1, 2)[0]!.weight).toBe(0);
    // Held over the first line, it is heard as if struck there.
    expect(hear([[60, 0.5, 1.5]], 1, 2)).toEqual(hear([[60, 1, 1]], 1, 2));
    expect(hear([[60, 1, 5]], 1, 2)[0]!.weight).toBeCloseTo(1.25, 12);
  });

  it("hears as bass what lies below the tenor's range, the less the higher it is", () => {
    const depth = (pitch: number) => bass(hear([[pitch, 0, 1]], 0, 1)[0]!)[pitch % 12] ?? 0;
    // One note alone is all the bass there is, however high up to the A below middle C.
    expect([28, 45, 50].map(depth)).toEqual([1, 1, 1]);
    expect([57, 60, 72].map(depth)).toEqual([0, 0, 0]);
    expect(depth(56)).toBeCloseTo(1 / 3, 12);
    const [heard] = hear(
      [
        [36, 0, 1],
        [51, 0, 1],
        [64, 0, 1],
        [67, 0, 1],
      ],
      0,
      1,
    );
    expect(bass(heard!)[0]).toBeCloseTo(2 / 3, 12);
    expect(bass(heard!)[3]).toBeCloseTo(1 / 3, 12);
    expect(Object.keys(bass(heard!))).toEqual(["0", "3"]);
  });
});

describe("what is heard in several choruses together", () => {
  const [c] = hear([[48, 0, 1]], 0, 1);
  const [short] = hear([[52, 0, 0.375]], 0, 1);
  const [silence] = hear([], 0, 1);
  it("weighs each by how much is played", () => {
    // 1.25 of C and 0.625 of E.
    const mean = meanHeard([c!, short!]);
    expect(mean.weight).toBeCloseTo(1.875, 12);
    expect(shares(mean)[0]).toBeCloseTo(2 / 3, 12);
    expect(shares(mean)[4]).toBeCloseTo(1 / 3, 12);
    expect(bass(mean)[0]).toBeCloseTo(2 / 3, 12);
  });

  it("is not changed by a chorus in which nothing is played", () => {
    expect(meanHeard([c!, silence!])).toEqual(c);
    expect(meanHeard([silence!, silence!])).toEqual(silence);
    expect(meanHeard([]).weight).toBe(0);
  });
});
