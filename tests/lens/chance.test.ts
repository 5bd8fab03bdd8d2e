/** What chance would reach is not called reached. */
import { describe, expect, it } from "vitest";
import type { Lens } from "../../src/account.ts";
import { analyse } from "../../src/analyse.ts";
import { LENSES } from "../../src/lens/index.ts";
import { chanceFrom } from "../../src/statistics/chance.ts";
import { midiOf } from "../findings/line-midi.ts";

const BLUES = "idiom: blues\nkey: C\n| C7 | F7 | C7 | C7 | F7 | F7 | C7 | C7 | G7 | F7 | C7 | G7 |";

const lensOf = (id: string): Lens => LENSES.find((lens) => lens.id === id)!;

function seen(pitches: readonly number[], lens: Lens) {
  const options = { method: "notated", chartConfirmed: true, lens } as Parameters<typeof analyse>[2];
  return analyse(midiOf(pitches, 0.5), BLUES, options).lens!;
}

/** Two choruses of eighths, each bar begun on the third or seventh of its chord, then up and down its chord. */
function guided(): number[] {
  const thirds: Readonly<Record<string, readonly number[]>> = {
    C7: [64, 67, 70, 72, 70, 67, 64, 62],
    F7: [63, 65, 69, 72, 69, 65, 63, 60],
    G7: [65, 67, 71, 74, 71, 67, 65, 62],
  };
  const chords = "C7 F7 C7 C7 F7 F7 C7 C7 G7 F7 C7 G7".split(" ");
  return [...chords, ...chords].flatMap((chord) => thirds[chord]!);
}

describe("a lens weighed against chance", () => {
  it("is reached by a line that aims at thirds and sevenths", () => {
    const outcome = seen(guided(), lensOf("guide-tones"));
    expect(outcome.state).toBe("reached");
    expect(outcome.asks[0]!.chance).toMatchObject({ null: "pitches shuffled", draws: 39 });
    expect(outcome.asks[0]!.chance!.p).toBeLessThanOrEqual(0.05);
  });

  it("is seldom reached by random notes, however low its bound", () => {
    // A test at .05 on twelve takes and four lenses lets about two of forty-eight pass; five would be too many.
    const low: readonly Lens[] = [
      {
        ...lensOf("guide-tones"),
        asks: [{ measure: "guide-tones-at-changes", least: 0.1, most: null, partly: 0 }],
      },
      {
        ...lensOf("approach-and-enclosure"),
        asks: [{ measure: "approaches", least: 0.01, most: null, partly: 0 }],
      },
      { ...lensOf("avoid-note"), asks: [{ measure: "avoid-leaned", least: null, most: 0.5, partly: 0.6 }] },
      {
        ...lensOf("blue-third"),
        asks: [{ measure: "blue-third-to-third", least: 1, most: null, partly: 0 }],
      },
    ];
    let reached = 0;
    for (let seed = 1; seed <= 12; seed++) {
      const chance = chanceFrom(seed * 6271);
      const pitches = Array.from({ length: 96 }, () => 60 + Math.floor(chance() * 20));
      for (const lens of low) if (seen(pitches, lens).state === "reached") reached++;
    }
    expect(reached).toBeLessThanOrEqual(4);
  }, 120_000);

  it("gives the same outcome for the same take and lens, and none without a lens", () => {
    const lens = lensOf("avoid-note");
    expect(seen(guided(), lens)).toEqual(seen(guided(), lens));
    expect(analyse(midiOf(guided(), 0.5), BLUES, { method: "notated" })).not.toHaveProperty("lens");
  });
});
