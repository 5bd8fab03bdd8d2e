/** Keys as they are named at the moment at which they are pressed. */
import { describe, expect, it } from "vitest";
import { nameKey, nameWords, spanAt } from "../../client/record/named-key.ts";
import { chordSpans, formChart, parseChart } from "../../src/chart/index.ts";
import { BUILT_IN_SHAPES, placementMap } from "../../src/hands/index.ts";

const blues = formChart("blues-basic", "C");
const spans = chordSpans(blues);
const map = placementMap(blues, spans, BUILT_IN_SHAPES.slice(0, 1));
const named = (pitch: number, bar: number) => nameKey(pitch, spanAt(spans, blues, bar - 1)!, map);

describe("a key that is pressed", () => {
  // Over C7 in a blues: E third, D tension, E flat blue, F avoid, A flat outside (the examples of the trade's table, after
  // Nettles & Graf [memory]); the shape on C and on G holds C D E flat E G A B flat and no F. [practice]
  it.each([
    [60, "1", "root", true],
    [64, "3", "third", true],
    [67, "5", "fifth", true],
    [70, "b7", "seventh", true],
    [62, "9", "tension", true],
    [63, "b3", "blue", true],
    [65, "11", "avoid", false],
    [68, "b13", "outside", false],
    [36, "1", "root", true],
  ] as const)("%i over C7 is the %s, %s", (pitch, degree, role, placed) => {
    expect(named(pitch, 1)).toMatchObject({ degree, role, placed, symbol: "C7" });
  });

  it("belongs to the chord of its bar, in every chorus", () => {
    expect(named(65, 5)).toMatchObject({ symbol: "F7", role: "root" });
    expect(spanAt(spans, blues, 12 + 4)!.symbol).toBe("F7");
    expect(spanAt(spans, blues, 8)!.symbol).toBe("G7");
  });

  it("belongs to the next chord when it is struck a little early", () => {
    const two = parseChart("key: C\n| Dm7 G7 | Cmaj7 |");
    const at = (bars: number) => spanAt(chordSpans(two), two, bars)!.symbol;
    expect([at(0), at(0.45), at(0.48), at(0.5), at(0.98), at(1), at(1.98)]).toEqual([
      "Dm7",
      "Dm7",
      "G7",
      "G7",
      "Cmaj7",
      "Cmaj7",
      "Dm7",
    ]);
  });

  it("is said in words, and its place only where one is known", () => {
    expect(nameWords(named(63, 1))).toBe("♭3 of C7: blue note, in the placement");
    expect(nameWords(named(65, 1))).toBe("11 of C7: avoid note, out of the placement");
    expect(nameWords(nameKey(60, spans[0]!, null))).toBe("1 of C7: root");
  });
});
