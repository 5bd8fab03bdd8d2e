/** A key that changes inside a typed chart: functions, numerals, scales and names follow it, and the text comes back. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  chartText,
  chordSpans,
  keyName,
  parseChart,
  parseKey,
  sameChanges,
  transposeChart,
} from "../../src/chart/index.ts";

const CHANGES =
  "key: C\n| Dm7 | G7 | Cmaj7 | % |\nkey: Ab\n| Bbm7 | Eb7 | Abmaj7 | % |\nkey: C\n| Dm7 | G7 |";
const keysOf = (text: string) => {
  const chart = parseChart(text);
  return chart.bars.map((bar) => keyName(bar.key ?? chart.key)).join(" ");
};

describe("a key that changes inside a chart", () => {
  it("holds from its line on, until the next", () => {
    expect(keysOf(CHANGES)).toBe("C C C C Ab Ab Ab Ab C C");
    expect(keyName(parseChart(CHANGES).key)).toBe("C");
  });

  it("is read as headings are: a line of words, small letters, other names of notes", () => {
    expect(keysOf("key: F\nF7\nkey of Bb minor\nBbm7")).toBe("F Bbm");
    expect(keysOf("key: F\nF7\nin Eb\nEb7")).toBe("F Eb");
    expect(keysOf("names: german\nkey: F\n| F7 |\nkey: b-Moll\n| Bm7 |")).toBe("F Bbm");
  });

  it("stands with its bars wherever they are played again", () => {
    expect(keysOf("key: C\n|: C | F |\nkey: Eb\n| Eb | Ab :|\nkey: C\n| C |")).toBe("C C Eb Eb C C Eb Eb C");
    expect(keysOf("key: C\n| C | F | Fine\nkey: G\n| G | D7 | D.C. al Fine")).toBe("C C G G C C");
  });

  it("leaves the first key to be found from the bars that stand before the change", () => {
    // II-V-I is in F, whatever follows in another key. [practice]
    expect(keysOf("| Gm7 | C7 | Fmaj7 | % |\nkey: A\n| Bm7 | E7 | Amaj7 | % |")).toBe("F F F F A A A A");
  });

  it("gives each chord its function in the key of its bar", () => {
    // II V I is II V I in every key; a major seventh on IV is Lydian, on I Ionian. [lit: Nettles & Graf, memory]
    const numerals = chordSpans(parseChart(CHANGES)).map(({ numeral }) => numeral);
    expect(numerals.slice(0, 3)).toEqual(["IIm7", "V7", "Imaj7"]);
    expect(numerals.slice(4, 7)).toEqual(["IIm7", "V7", "Imaj7"]);
    const [first, second] = chordSpans(parseChart("key: C\n| Cmaj7 |\nkey: G\n| Cmaj7 |"));
    expect([first!.scale, first!.numeral]).toEqual(["Ionian", "Imaj7"]);
    expect([second!.scale, second!.numeral]).toEqual(["Lydian", "IVmaj7"]);
  });

  it("is the same when it is named twice, and none when it is the key before", () => {
    expect(chartText(parseChart("key: C\n| C |\nkey: C\n| F |")).match(/key/g)).toHaveLength(1);
  });

  it("moves with the chart into every key", () => {
    const moved = transposeChart(parseChart(CHANGES), parseKey("Eb"));
    expect(moved.bars.map((bar) => keyName(bar.key ?? moved.key)).join(" ")).toBe(
      "Eb Eb Eb Eb Cb Cb Cb Cb Eb Eb",
    );
    expect(sameChanges(moved, parseChart(CHANGES))).toBe(true);
    const sharp = transposeChart(parseChart("key: C\n| C |\nkey: G#m\n| G#m |"), parseKey("E"));
    // B sharp minor would have nine sharps: C minor.
    expect(sharp.bars.map((bar) => keyName(bar.key ?? sharp.key))).toEqual(["E", "Cm"]);
  });

  it("comes back from its printed text, however often it changes", () => {
    const keys = fc.constantFrom("C", "Eb", "F#m", "Bb", "G", "Cm", "Ab", "E");
    const chords = fc.constantFrom("C7", "Dm7", "Abmaj7", "F#m7b5", "G7(b9)", "N.C.", "Bb7:3 Eb7:1");
    const stretch = fc.record({ key: keys, bars: fc.array(chords, { minLength: 1, maxLength: 6 }) });
    fc.assert(
      fc.property(fc.array(stretch, { minLength: 1, maxLength: 5 }), (stretches) => {
        const text = stretches.map(({ key, bars }) => `key: ${key}\n| ${bars.join(" | ")} |`).join("\n");
        const chart = parseChart(text);
        const again = parseChart(chartText(chart));
        expect(chartText(again)).toBe(chartText(chart));
        expect(again.bars.map(({ key }) => key)).toEqual(chart.bars.map(({ key }) => key));
        const told = stretches.flatMap(({ key, bars }) => bars.map(() => key));
        expect(keysOf(text).split(" ")).toEqual(told);
      }),
    );
  });
});
