import { describe, expect, it } from "vitest";
import { fitOf, profileOf } from "../../src/chart/chord-fit.ts";
import { bestFit, bestPath } from "../../src/chart/chords-from-notes.ts";
import { type Heard, hearStretches } from "../../src/chart/comping.ts";
import { parseChord } from "../../src/chart/index.ts";
import { noteAt } from "./comping-take.ts";

const held = (...pitches: number[]): Heard =>
  hearStretches(
    pitches.map((pitch, index) => noteAt(index + 1, pitch, 0, 1, 60)),
    [0, 1],
  )[0]!;
const path = (parts: number, ...stretches: readonly (readonly number[])[]) =>
  bestPath(
    stretches.map((pitches) => held(...pitches)),
    parts,
  )
    .map(({ symbol }) => symbol)
    .join(" ");

// Left-hand voicings: the root below, the chord above it. [practice]
const C7 = [36, 52, 55, 58];
const F7 = [41, 57, 60, 63];
const Dm7 = [38, 53, 57, 60];
const G7 = [43, 53, 59, 62];
const Cmaj7 = [36, 52, 55, 59];

describe("chords read without a form in mind", () => {
  it.each([
    ["C7", C7],
    ["Cmaj7", Cmaj7],
    ["Dm7", Dm7],
    ["C", [36, 52, 55, 60]],
    ["Cm", [36, 51, 55, 60]],
    ["Bm7b5", [47, 50, 53, 57]],
    ["Cm6", [36, 51, 55, 57]],
    ["C7sus4", [36, 53, 55, 58]],
    ["Cdim7", [36, 51, 54, 57]],
    // Spelled with flats until there is a key.
    ["Gbm7", [42, 57, 61, 64]],
    ["Bb7", [46, 62, 65, 68]],
  ] as const)("name %s by what is struck", (symbol, pitches) => {
    expect(path(1, pitches)).toBe(symbol);
  });

  it("follow a cadence", () => {
    expect(path(1, Dm7, G7, Cmaj7, Cmaj7)).toBe("Dm7 G7 Cmaj7 Cmaj7");
    expect(path(2, Dm7, G7, Cmaj7, Cmaj7)).toBe("Dm7 G7 Cmaj7 Cmaj7");
    expect(path(1, C7, F7, C7, G7, F7, C7)).toBe("C7 F7 C7 G7 F7 C7");
  });

  it("go on through silence as they were", () => {
    expect(path(1, C7, [], [], F7)).toBe("C7 C7 C7 F7");
    expect(path(2, C7, [], F7, [])).toBe("C7 C7 F7 F7");
  });

  it("change in the middle of a bar only for good reason", () => {
    // The upper notes of Cmaj7 are those of Em7, and the lower ones a plain triad.
    expect(path(1, Cmaj7, [52, 55, 59, 62])).toBe("Cmaj7 Em7");
    expect(path(2, Cmaj7, [52, 55, 59, 62])).toBe("Cmaj7 Cmaj7");
    expect(path(1, C7, [60, 64, 67])).toBe("C7 C");
    expect(path(2, C7, [60, 64, 67])).toBe("C7 C7");
    // After a bar line it is free again.
    expect(path(2, G7, G7, Cmaj7, [52, 55, 59, 62])).toBe("G7 G7 Cmaj7 Cmaj7");
    expect(path(2, Cmaj7, Cmaj7, [52, 55, 59, 62])).toBe("Cmaj7 Cmaj7 Em7");
    // The bass moves and the third is new: that is reason enough.
    expect(path(2, C7, F7)).toBe("C7 F7");
  });

  it("take a fifth down for likelier than a leap to a root far off, where the notes leave it open", () => {
    // Third and seventh of two dominants a tritone apart, B and F, without a root: after Dm7 it is G7, after Abm7 Db7.
    const tritone = [53, 59];
    const Abm7 = [44, 59, 63, 66];
    expect(path(1, Dm7, [65, 71], Cmaj7)).toBe("Dm7 G7 Cmaj7");
    expect(
      path(
        1,
        Abm7,
        tritone.map((pitch) => pitch + 12),
        [42, 58, 61, 65],
      ),
    ).toBe("Abm7 Db7 Gbmaj7");
  });
});

describe("the best single chord", () => {
  it("fits as well as any that it could be", () => {
    const dominant = fitOf(held(...C7), profileOf(parseChord("C7")!));
    expect(bestFit(held(...C7))).toBeGreaterThanOrEqual(dominant);
    expect(bestFit(held(...C7))).toBeLessThan(dominant + 0.1);
  });

  it("is worse when its own root is not allowed", () => {
    expect(bestFit(held(...C7), 0)).toBeLessThan(bestFit(held(...C7)) - 0.3);
    expect(bestFit(held(...C7), 1)).toBe(bestFit(held(...C7)));
    expect(bestFit(held(...F7), 5)).toBeLessThan(bestFit(held(...F7)) - 0.3);
  });
});
