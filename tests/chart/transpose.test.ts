import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  chordSpans,
  formChart,
  keyName,
  parseChart,
  parseKey,
  transposeChart,
  usualKey,
} from "../../src/chart/index.ts";

const symbols = (chart: ReturnType<typeof parseChart>) =>
  chart.bars.flatMap((bar) => bar.chords.map(({ symbol }) => symbol)).join(" ");

describe("a chart in another key", () => {
  const written = parseChart("key: C\nC6 A7 | Dm7 G7 | Fm7 Bb7 | C/E Ebdim7 | F#m7b5 B7 | Ab7 Db7 | N.C.");

  // Spelled by hand from the key signatures and the circle of fifths.
  const BY_HAND: Readonly<Record<string, string>> = {
    C: "C6 A7 Dm7 G7 Fm7 Bb7 C/E Ebdim7 F#m7b5 B7 Ab7 Db7 N.C.",
    Db: "Db6 Bb7 Ebm7 Ab7 Gbm7 Cb7 Db/F Fbdim7 Gm7b5 C7 A7 D7 N.C.",
    D: "D6 B7 Em7 A7 Gm7 C7 D/F# Fdim7 G#m7b5 C#7 Bb7 Eb7 N.C.",
    Eb: "Eb6 C7 Fm7 Bb7 Abm7 Db7 Eb/G Gbdim7 Am7b5 D7 Cb7 Fb7 N.C.",
    E: "E6 C#7 F#m7 B7 Am7 D7 E/G# Gdim7 A#m7b5 D#7 C7 F7 N.C.",
    F: "F6 D7 Gm7 C7 Bbm7 Eb7 F/A Abdim7 Bm7b5 E7 Db7 Gb7 N.C.",
    "F#": "F#6 D#7 G#m7 C#7 Bm7 E7 F#/A# Adim7 B#m7b5 E#7 D7 G7 N.C.",
    Gb: "Gb6 Eb7 Abm7 Db7 Cbm7 Fb7 Gb/Bb Adim7 Cm7b5 F7 D7 G7 N.C.",
    G: "G6 E7 Am7 D7 Cm7 F7 G/B Bbdim7 C#m7b5 F#7 Eb7 Ab7 N.C.",
    Ab: "Ab6 F7 Bbm7 Eb7 Dbm7 Gb7 Ab/C Cbdim7 Dm7b5 G7 Fb7 A7 N.C.",
    A: "A6 F#7 Bm7 E7 Dm7 G7 A/C# Cdim7 D#m7b5 G#7 F7 Bb7 N.C.",
    Bb: "Bb6 G7 Cm7 F7 Ebm7 Ab7 Bb/D Dbdim7 Em7b5 A7 Gb7 Cb7 N.C.",
    B: "B6 G#7 C#m7 F#7 Em7 A7 B/D# Ddim7 E#m7b5 A#7 G7 C7 N.C.",
  };
  for (const [tonic, expected] of Object.entries(BY_HAND)) {
    it(`in ${tonic}`, () => {
      const moved = transposeChart(written, parseKey(tonic));
      expect(symbols(moved)).toBe(expected);
      expect(keyName(moved.key)).toBe(tonic);
      expect(
        parseChart(`| ${symbols(moved)} |`, { key: tonic, idiom: "standard" }).bars[0]!.chords.length,
      ).toBe(13);
    });
  }

  it("comes back from any key as it was", () => {
    for (const tonic of ["D", "E", "F", "G", "A", "Bb", "Eb"]) {
      const there = transposeChart(written, parseKey(tonic));
      expect(symbols(transposeChart(there, written.key))).toBe(symbols(written));
    }
  });

  it("keeps everything but the pitch: beats, scales, functions", () => {
    const chart = parseChart("key: Gm\nname: x\nGm7:3 Eb7{altered}:1 | D7");
    const moved = transposeChart(chart, parseKey("Bbm"));
    expect(symbols(moved)).toBe("Bbm7 Gb7 F7");
    expect(moved).toMatchObject({ name: "x", meter: chart.meter, idiom: chart.idiom });
    const plain = (c: typeof chart) =>
      chordSpans(c).map(({ chord, symbol, key: _, ...rest }) => ({
        ...rest,
        tones: chord!.tones,
        quality: chord!.quality,
      }));
    expect(plain(moved)).toEqual(plain(chart));
    expect(moved.bars[0]!.chords[1]!.chord).toMatchObject({
      root: "Gb",
      rootClass: 6,
      bass: "Gb",
      bassClass: 6,
      text: "Gb7",
    });
  });

  it("moves every pitch class by the same distance", () => {
    const tonics = ["C", "C#", "Db", "D", "Eb", "E", "F", "F#", "Gb", "G", "Ab", "A", "Bb", "B"];
    fc.assert(
      fc.property(fc.constantFrom(...tonics), fc.constantFrom(...tonics), (from, to) => {
        const start = formChart("aaba-dominant-bridge", from);
        const moved = transposeChart(start, parseKey(to));
        const by = (moved.key.tonicClass - start.key.tonicClass + 12) % 12;
        start.bars.forEach((bar, index) => {
          bar.chords.forEach(({ chord }, place) => {
            const now = moved.bars[index]!.chords[place]!.chord!;
            expect(now.rootClass).toBe((chord!.rootClass + by) % 12);
            expect(now.bassClass).toBe((chord!.bassClass + by) % 12);
            expect(now.root).toMatch(/^[A-G][b#]?$/);
          });
        });
      }),
      { numRuns: 60, seed: 1 },
    );
  });

  it("does not go from major to minor", () => {
    expect(() => transposeChart(written, parseKey("Am"))).toThrow(/in C cannot be transposed to Am/);
    try {
      transposeChart(formChart("blues-minor", "C"), parseKey("C"));
    } catch (error) {
      expect(error).toMatchObject({ code: "another-mode", todo: expect.stringContaining("minor key") });
    }
  });

  // The circle of fifths: seven sharps and seven flats are the most.
  it("is written in the neighbouring key where a signature would need more than seven accidentals", () => {
    const usual = (name: string) => keyName(usualKey(parseKey(name)));
    expect(["G#", "D#", "A#", "E#", "B#", "Fb"].map(usual)).toEqual(["Ab", "Eb", "Bb", "F", "C", "E"]);
    expect(["Dbm", "Gbm", "Cbm", "Fbm", "E#m", "B#m"].map(usual)).toEqual([
      "C#m",
      "F#m",
      "Bm",
      "Em",
      "Fm",
      "Cm",
    ]);
    for (const same of ["C", "F#", "Gb", "C#", "Cb", "B", "Db"]) expect(usual(same)).toBe(same);
    for (const same of ["Am", "G#m", "Abm", "D#m", "Ebm", "A#m", "C#m"]) expect(usual(same)).toBe(same);
    expect(formChart("blues-minor", "Db").key.tonic).toBe("C#");
  });
});
