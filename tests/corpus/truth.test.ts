/** The analysis against what the generator knows of its own takes. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { TrueNote, Truth } from "../../corpus/generator/truth.ts";
import type { AccountNote } from "../../src/account.ts";
import { demoAccount, demoClass } from "../demo-class.ts";

const root = new URL("../../corpus/", import.meta.url);

/** Pairs each true note with the account's, by pitch and time. */
function paired(truth: Truth, solo: readonly AccountNote[]): [TrueNote, AccountNote | undefined][] {
  const left = new Set(solo);
  return truth.notes.map((one) => {
    const found = [...left].find(
      (note) => note.pitch === one.pitch && Math.abs(note.onset - one.onset) < 0.03,
    );
    if (found !== undefined) left.delete(found);
    return [one, found];
  });
}

const share = (count: number, all: number) => count / Math.max(1, all);
let placedRight = 0;
let placedAll = 0;

describe.each(demoClass.takes)("$id", (take) => {
  const truth = JSON.parse(readFileSync(new URL(take.truth, root), "utf8")) as Truth;
  const account = demoAccount(take);
  const solo = account.notes.filter((note) => note.solo);
  const pairs = paired(truth, solo);
  const known = pairs.filter((pair): pair is [TrueNote, AccountNote] => pair[1] !== undefined);

  it("parts the hands: the line is the line", () => {
    expect(share(known.length, truth.notes.length)).toBeGreaterThanOrEqual(0.98);
    expect(solo.length).toBeLessThanOrEqual(truth.notes.length * 1.06);
  });

  it("puts notes in their chorus and bar", () => {
    const meant = known.filter(([one]) => !one.grace);
    const right = meant.filter(([one, note]) => one.chorus === note.chorus && one.bar === note.bar);
    expect(account.alignment.choruses).toBe(truth.choruses);
    expect(share(right.length, meant.length)).toBeGreaterThanOrEqual(truth.time === "rubato" ? 0.8 : 0.98);
  });

  it.skipIf(truth.time === "rubato")("puts notes on their beat, swung off-beats on x.5", () => {
    const meant = known.filter(([one]) => !one.grace);
    const right = meant.filter(([one, note]) => note.beat !== null && Math.abs(one.beat - note.beat) < 0.01);
    expect(share(right.length, meant.length)).toBeGreaterThanOrEqual(0.95);
  });

  it("labels every note of the line", () => {
    for (const note of solo) {
      expect(note.role).not.toBeNull();
      expect(note.lineRole).not.toBeNull();
      expect(note.account.length).toBeGreaterThan(20);
    }
  });

  it("finds the hand's places", () => {
    const names = new Map(account.placements.map((one) => [one.id, one]));
    const held = known.filter(([one]) => one.placement !== null);
    const right = held.filter(([one, note]) => {
      const placement = note.placement === null ? undefined : names.get(note.placement);
      return (
        placement?.anchorPitch === one.placement!.anchorPitch &&
        placement.anchorFinger === one.placement!.anchorFinger
      );
    });
    placedRight += right.length;
    placedAll += held.length;
    expect(share(right.length, held.length)).toBeGreaterThanOrEqual(truth.time === "rubato" ? 0.75 : 0.85);
  });
});

describe("the class as a whole", () => {
  it("has at least 95 % of its notes in their true places", () => {
    expect(share(placedRight, placedAll)).toBeGreaterThanOrEqual(0.95);
  });
});
