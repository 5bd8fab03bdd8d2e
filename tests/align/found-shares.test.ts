/**
 * How sure bars are said to be, against what was counted in open solos, each laid by tables that were counted without the
 * players of its instrument.
 */
import { describe, expect, it } from "vitest";
import { type LatticeKind, sureBy } from "../../src/align/lattice/found-shares.ts";

const KINDS: readonly LatticeKind[] = [
  "pinned",
  "known bars",
  "known beats",
  "told tempo",
  "with comping",
  "sought tempo",
];

/** Over a form of many bars. */
function sure(kind: LatticeKind, share: number): number {
  return sureBy(kind, 32)(share);
}

describe("how sure bars are", () => {
  it.each(KINDS)("rises with the share of readings: %s", (kind) => {
    const shares = Array.from({ length: 101 }, (_, k) => sure(kind, k / 100));
    for (let k = 1; k <= 100; k++) expect(shares[k]).toBeGreaterThanOrEqual(shares[k - 1]!);
    expect(shares[0]).toBeGreaterThanOrEqual(0);
    expect(shares[100]).toBeLessThan(1);
  });

  /**
   * Takes of so many agreeing readings on the whole, and those laid well. With the shares in between nothing is counted
   * that could be told from them: a take is right or wrong as a whole, so that the error of a share is that of takes.
   */
  it.each([
    ["known bars", 0.8, 22, 18],
    ["known bars", 0.99, 151, 149],
    ["known beats", 0.4, 23, 12],
    ["known beats", 0.78, 45, 34],
    ["known beats", 0.99, 91, 90],
  ] as const)("is what was counted: %s at %d", (kind, share, takes, right) => {
    const error = Math.sqrt(0.25 / takes);
    expect(Math.abs(sure(kind, share) - right / takes)).toBeLessThan(Math.min(error, 0.12));
  });
});

/** Bars of such a share whose chart fits, and how many of a hundred are right. */
describe.each([
  ["told tempo", 0.4, 52],
  ["told tempo", 0.5, 72],
  ["told tempo", 0.6, 82],
  ["told tempo", 0.7, 88],
  ["told tempo", 0.8, 94],
  ["told tempo", 0.89, 96],
  ["with comping", 0.46, 30],
  ["with comping", 0.55, 57],
  ["with comping", 0.66, 85],
  ["with comping", 0.76, 95],
  ["with comping", 0.86, 99],
] as const)("bars of %s", (kind, share, right) => {
  it(`are as sure at ${share} as was counted`, () => {
    expect(Math.abs(sure(kind, share) - right / 100)).toBeLessThan(0.06);
  });
});

/** The same of all bars: where no tempo is told, hardly any chart is said to fit below a share of .5. */
describe.each([
  [0.3, 17],
  [0.5, 45],
  [0.6, 69],
  [0.7, 82],
  [0.8, 90],
] as const)("bars whose tempo is sought", (share, right) => {
  it(`are as sure at ${share} as was counted`, () => {
    expect(Math.abs(sure("sought tempo", share) - right / 100)).toBeLessThan(0.06);
  });
});

describe("a told tempo", () => {
  // Of the surest 3,300 bars of 121 takes .94 are right.
  it("makes bars no surer than was found", () => {
    expect(sure("told tempo", 1)).toBeGreaterThanOrEqual(0.93);
    expect(sure("told tempo", 1)).toBeLessThanOrEqual(0.98);
  });
});

describe("a form of one bar", () => {
  // Nothing in the notes says whether the first of equal bars leads in.
  it("is not placed surely but by pins", () => {
    const of = (kind: LatticeKind) => sureBy(kind, 1)(1);
    expect(of("known bars")).toBe(0.5);
    expect(of("pinned")).toBeGreaterThan(0.9);
  });
});
