/** Every spelling of every quality of the trade reads back to its notes, and prints what reads to the same notes. */
import { describe, expect, it } from "vitest";
import { parseChord } from "../../src/chart/index.ts";
import { everySpelling } from "./every-spelling.ts";

const SPELLINGS = everySpelling();
const ROOTS = ["C", "Bb", "F#", "E♭"];
const notesOf = (symbol: string): string => {
  try {
    const chord = parseChord(symbol);
    return [...new Set(chord?.tones.map(({ semitones }) => semitones))].sort((a, b) => a - b).join(" ");
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
};

describe("all spellings of all qualities", () => {
  it("are at least two thousand", () => {
    expect(SPELLINGS.length).toBeGreaterThanOrEqual(2000);
  });

  it.each(ROOTS)("read back to their notes on %s", (root) => {
    const wrong = SPELLINGS.filter(({ written, tones }) => notesOf(root + written) !== tones);
    expect(
      wrong.map(({ written, tones }) => `${root}${written}: ${tones}, not ${notesOf(root + written)}`),
    ).toEqual([]);
  });

  it("are printed so that they read to the same notes", () => {
    const wrong = SPELLINGS.filter(({ written }) => {
      const house = parseChord(`C${written}`)!.symbol;
      return notesOf(house) !== notesOf(`C${written}`) || parseChord(house)!.symbol !== house;
    });
    expect(wrong).toEqual([]);
  });

  it("mean the same over a bass", () => {
    const wrong = SPELLINGS.filter(({ written, tones }) => {
      const over = `C${written}/G`;
      return notesOf(over) !== tones || parseChord(over)?.bass !== "G";
    });
    expect(wrong).toEqual([]);
  });
});
