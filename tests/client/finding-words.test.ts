import { describe, expect, it } from "vitest";
import { barWords, printedText } from "../../client/findings/finding-words.ts";

describe("a finding on paper", () => {
  it.each([
    ["Over Bb7 you play ten notes", "Over B♭7 you play ten notes"],
    ["on Gm7, Cm7 and Eb7 you know", "on Gm7, Cm7 and E♭7 you know"],
    ["About half of the notes; Absence is no Abacus", "About half of the notes; Absence is no Abacus"],
    ["The highest note, Bb5, is saved", "The highest note, B♭5, is saved"],
    ["in F#m7b5 and Ebmaj7", "in F♯m7b5 and E♭maj7"],
    ["placed on Db, the root", "placed on D♭, the root"],
    ["from 15 % to 46 %", "from 15\u00a0% to 46\u00a0%"],
  ])("writes chords and notes as they are printed and leaves words alone: %s", (text, printed) => {
    expect(printedText(text)).toBe(printed);
  });

  it("says where to hear it, the pickup by its name", () => {
    const bars = [
      { chorus: 1, bar: 0 },
      { chorus: 1, bar: 2 },
      { chorus: 2, bar: 1 },
      { chorus: 2, bar: 3 },
    ];
    expect(barWords({ bars })).toBe("Hear it in chorus 1, the pickup, bar 2; chorus 2, bars 1, 3");
    expect(barWords({ bars: [] })).toBe("");
  });

  it("names bars in the order of the chart, neighbours as one, each once, and no more runs than can be read", () => {
    const at = (chorus: number, ...bars: number[]) => bars.map((bar) => ({ chorus, bar }));
    expect(barWords({ bars: [...at(2, 1), ...at(1, 7, 8, 9, 2, 3, 4, 4)] })).toBe(
      "Hear it in chorus 1, bars 2–4, 7–9; chorus 2, bar 1",
    );
    expect(barWords({ bars: at(1, 1, 3, 5, 7, 9, 11, 13, 15) })).toBe(
      "Hear it in chorus 1, bars 1, 3, 5, 7, 9, 11 and two others",
    );
  });
});
