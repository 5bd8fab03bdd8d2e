import { describe, expect, it } from "vitest";
import { fitOf, profileOf } from "../../src/chart/chord-fit.ts";
import { type Heard, hearStretches } from "../../src/chart/comping.ts";
import { parseChord } from "../../src/chart/index.ts";
import { noteAt } from "./comping-take.ts";

/** A chord struck and held for a second. */
const held = (...pitches: number[]): Heard =>
  hearStretches(
    pitches.map((pitch, index) => noteAt(index + 1, pitch, 0, 1, 60)),
    [0, 1],
  )[0]!;
const fitted = (symbol: string, ...pitches: number[]) =>
  fitOf(held(...pitches), profileOf(parseChord(symbol)!));

describe("how well what is heard fits a chord", () => {
  it("is nothing in silence", () => {
    expect(fitted("C7")).toBe(0);
  });

  it("is best for root in the bass, third and seventh, and worst for notes of none of its tones", () => {
    const shell = fitted("C7", 36, 64, 70);
    expect(shell).toBeGreaterThan(1.4);
    // The same in the right register without a bass.
    expect(shell).toBeGreaterThan(fitted("C7", 60, 64, 70) + 0.3);
    expect(fitted("C7", 61, 63, 66, 68)).toBeLessThan(-0.9);
  });

  // Each set of keys is the chord's own voicing; the other chord shares some of its tones.
  it.each([
    ["C7", "Cmaj7", [36, 52, 58]],
    ["Cmaj7", "C7", [36, 52, 59]],
    ["Cm7", "C7", [36, 51, 58]],
    ["Cm7b5", "Cm7", [36, 51, 54, 58]],
    ["C6", "Am7", [36, 52, 57, 67]],
    ["Am7", "C6", [33, 52, 60, 67]],
    ["C7sus4", "C7", [36, 53, 58]],
    ["Cdim7", "Cm7b5", [36, 51, 54, 57]],
    ["F7", "C7", [41, 57, 63]],
    // The two dominants a tritone apart share third and seventh: the bass tells them apart.
    ["C7", "Gb7", [36, 52, 58]],
    ["Gb7", "C7", [42, 58, 64]],
  ] as const)("hears %s, not %s", (is, isNot, pitches) => {
    expect(fitted(is, ...pitches)).toBeGreaterThan(fitted(isNot, ...pitches));
  });

  it("minds an added ninth or thirteenth less than a note foreign to the chord", () => {
    const [bare, ninth, thirteenth, foreign] = [[], [62], [69], [66]].map((more) =>
      fitted("C7", 36, 52, 58, ...more),
    );
    expect(ninth).toBeLessThan(bare!);
    expect(thirteenth).toBe(ninth);
    expect(foreign).toBeLessThan(ninth! - 0.2);
    // Where the symbol names the ninth, it speaks for the chord.
    expect(fitted("C9", 36, 52, 58, 62)).toBeGreaterThan(ninth!);
  });

  it("misses the third the most, then the seventh, then the root; not the fifth", () => {
    // Of four notes that sound alike one is replaced by another chord tone, an octave up.
    const without = {
      third: fitted("C7", 60, 67, 70, 82),
      seventh: fitted("C7", 60, 67, 64, 76),
      root: fitted("C7", 64, 67, 70, 82),
      fifth: fitted("C7", 60, 64, 70, 82),
    };
    expect(without.third).toBeLessThan(without.seventh);
    expect(without.seventh).toBeLessThan(without.root);
    expect(without.root).toBeLessThan(without.fifth);
  });

  it("misses a tone that is hardly heard by how much it lacks", () => {
    const share = (third: number): Heard => {
      const classes = new Array<number>(12).fill(0);
      classes[0] = 0.5;
      classes[10] = 0.5 - third;
      classes[4] = third;
      return { classes, bass: new Array<number>(12).fill(0), weight: 1 };
    };
    const profile = profileOf(parseChord("C7")!);
    // Third and seventh speak alike: what differs is what is missed, 0.2 for the whole third.
    const full = fitOf(share(0.15), profile);
    expect(fitOf(share(0.2), profile)).toBeCloseTo(full, 12);
    expect(full - fitOf(share(0), profile)).toBeCloseTo(0.2, 12);
    expect(full - fitOf(share(0.075), profile)).toBeCloseTo(0.1, 12);
  });

  it("prefers the root in the bass to another chord tone, and that to a foreign one", () => {
    const [root, fifth, foreign] = [36, 43, 42].map((low) => fitted("C7", low, 60, 64, 67, 70));
    expect(root).toBeGreaterThan(fifth! + 0.2);
    expect(fifth).toBeGreaterThan(foreign! + 0.2);
  });

  it("is the same when chord and notes are moved together, round the octave", () => {
    const profile = profileOf(parseChord("C7")!);
    const heard = held(36, 52, 58, 62);
    const raised = (weights: readonly number[], above: number) =>
      weights.map((_, pitchClass) => weights[(pitchClass - above + 12) % 12]!);
    for (let above = 0; above < 12; above++) {
      const moved = {
        ...heard,
        classes: raised(heard.classes, above),
        bass: raised(heard.bass, above),
      };
      expect(fitOf(moved, profile, above)).toBeCloseTo(fitOf(heard, profile), 12);
      expect(fitOf(moved, { ...profile, rootClass: above })).toBeCloseTo(fitOf(heard, profile), 12);
    }
    const fromB = profileOf(parseChord("B7")!);
    expect(fitOf(heard, fromB, 1)).toBe(fitOf(heard, profile));
  });
});
