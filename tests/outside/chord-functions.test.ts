/**
 * Functions and scales against the key tables of tonal 6.4.3 (degrees, harmonic functions, chord scales, secondary
 * and substitute dominants), and keys and forms against the progressions of @musodojo/music-theory-data 28.
 */
import { chordProgressions } from "@musodojo/music-theory-data";
import { Key as TonalKey, Note as TonalNote, Scale as TonalScale } from "tonal";
import { describe, expect, it } from "vitest";
import {
  type ChordFunction,
  chordSpans,
  formChart,
  parseChart,
  recogniseForm,
} from "../../src/chart/index.ts";

const TONICS = ["C", "Db", "D", "Eb", "E", "F", "Gb", "G", "Ab", "A", "Bb", "B"];

/** Our functions that are tonal's tonic, subdominant and dominant. */
const GROUPS: Readonly<Record<string, readonly ChordFunction[]>> = {
  T: ["tonic", "mediant", "submediant"],
  SD: ["subdominant", "two", "submediant"],
  D: ["dominant"],
};

const spansOf = (chart: string, key: string) => chordSpans(parseChart(chart, { key, idiom: "standard" }));
const classesOf = (scale: string) => {
  const { tonic, notes } = TonalScale.get(scale);
  return notes
    .map((note) => (TonalNote.chroma(note)! - TonalNote.chroma(tonic!)! + 12) % 12)
    .sort((a, b) => a - b);
};

describe("the degrees of a major key against tonal's", () => {
  for (const tonic of TONICS) {
    it(`in ${tonic}`, () => {
      const key = TonalKey.majorKey(tonic);
      // I stands after each, so that no degree is heard as the II of the next.
      for (const [index, symbol] of key.chords.entries()) {
        const [span] = spansOf(`${symbol} | ${tonic}`, tonic);
        expect(GROUPS[key.chordsHarmonicFunction[index]!], symbol).toContain(span!.function);
        expect(span!.scaleTones, symbol).toEqual(classesOf(key.chordScales[index]!));
      }
    });
  }
});

describe("secondary and substitute dominants against tonal's", () => {
  for (const tonic of TONICS) {
    it(`in ${tonic}`, () => {
      const key = TonalKey.majorKey(tonic);
      for (const [index, target] of key.chords.entries()) {
        const dominant = key.secondaryDominants[index]!;
        if (dominant !== "") {
          const [span] = spansOf(`${dominant} | ${target} | ${tonic}`, tonic);
          const numeral = `V7/${["I", "II", "III", "IV", "V", "VI", "VII"][index]}`;
          // V of V is followed by V7 and V of IV by IV: all are secondary dominants.
          expect([span!.function, span!.numeral], dominant).toEqual(["secondary-dominant", numeral]);
        }
        // tonal spells substitutes a fifth too far in flat keys; pitch classes are compared by our reader.
        const substitute = key.substituteDominants[index]!;
        if (substitute === "") continue;
        const [span] = spansOf(`${substitute} | ${target} | ${tonic}`, tonic);
        // The substitute of V of III is the chord on IV: heard as IV7, with the same scale (Lydian b7).
        expect(span!.function, substitute).toBe(index === 2 ? "subdominant" : "tritone-substitute");
        expect(span!.scale).toBe("Lydian b7");
      }
    });
  }
});

describe("the chords of a minor key against tonal's", () => {
  for (const tonic of ["C", "C#", "D", "Eb", "E", "F", "F#", "G", "G#", "A", "Bb", "B"]) {
    it(`in ${tonic} minor`, () => {
      const key = TonalKey.minorKey(tonic);
      const natural = key.natural.chords.map((symbol) => spansOf(`${symbol} | ${tonic}m`, `${tonic}m`)[0]!);
      expect(natural.slice(0, 6).map((span) => span.function)).toEqual([
        ...["tonic", "two", "mediant", "subdominant", "dominant", "submediant"],
      ]);
      // bVII7 that goes to I is the backdoor; tonal has it as a subdominant, which is what a backdoor comes from.
      expect(natural[6]!.function).toBe("backdoor");
      // Where the handbook leaves the natural minor: I is Dorian by default, bIII Lydian off the tonic, bVII7 Lydian b7.
      for (const index of [1, 3, 4, 5]) {
        expect(natural[index]!.scaleTones, natural[index]!.symbol).toEqual(
          classesOf(key.natural.chordScales[index]!),
        );
      }
      const [dominant] = spansOf(`${key.harmonic.chords[4]} | ${tonic}m`, `${tonic}m`);
      expect(dominant!.function).toBe("dominant");
      expect(dominant!.scaleTones).toEqual(classesOf(key.harmonic.chordScales[4]!));
      const [melodic] = spansOf(`${tonic}m(maj7) | ${dominant!.symbol}`, `${tonic}m`);
      expect(melodic!.scaleTones).toEqual(classesOf(key.melodic.chordScales[0]!));
      const [sixth] = spansOf(`${key.melodic.chords[5]} | ${tonic}m`, `${tonic}m`);
      expect(sixth!.function).toBe("submediant");
    });
  }
});

describe("the progressions of @musodojo/music-theory-data", () => {
  const ROMAN_ROOTS: Readonly<Record<string, string>> = { "1": "C", "2": "D", "4": "F", "5": "G", "6": "A" };
  const KINDS: Readonly<Record<string, string>> = {
    M: "",
    m: "m",
    "7": "7",
    M7: "maj7",
    m7: "m7",
    ø7: "m7b5",
  };

  /** As a chart in C; chords of half a bar share one. */
  function chartOf(key: keyof typeof chordProgressions): string {
    let text = "";
    let half = false;
    for (const { degree, quality, durationInBars } of chordProgressions[key].chords) {
      const symbol = ROMAN_ROOTS[degree]! + KINDS[quality]!;
      text += half ? ` ${symbol}` : ` | ${symbol}`;
      half = durationInBars < 1 && !half;
      for (let bar = 1; bar < durationInBars; bar++) text += ` | ${symbol}`;
    }
    return text;
  }

  it("are all found in C, or in C minor, without being told the key", () => {
    for (const key of Object.keys(chordProgressions) as (keyof typeof chordProgressions)[]) {
      const chart = parseChart(chartOf(key));
      const mode = key === "minorTwoFiveOne" ? "minor" : "major";
      expect(chart.key, key).toMatchObject({ tonic: "C", mode });
      expect(chart.idiom, key).toBe(key.startsWith("twelveBar") ? "blues" : "standard");
    }
  });

  it("the 12-bar blues and its quick change, II-V-I major and minor are recognised as forms", () => {
    const formOf = (key: keyof typeof chordProgressions) =>
      recogniseForm(parseChart(chartOf(key)))?.description;
    expect(formOf("twelveBarBlues")).toBe("12-bar blues in C");
    expect(formOf("twelveBarBluesQuickChange")).toBe("12-bar blues with quick change in C");
    expect(formOf("majorTwoFiveOne")).toBe("II-V-I in C");
    expect(formOf("minorTwoFiveOne")).toBe("Minor II-V-I in Cm");
    expect(formOf("oneSixFourFive")).toBeUndefined();
  });

  it("the built-in quick change and II-V-I have the same chords, bar for bar", () => {
    const bars = (text: string) => parseChart(text, { key: "C" }).bars.map((bar) => bar.chords[0]!.symbol);
    const form = (id: string) => formChart(id, "C").bars.map((bar) => bar.chords[0]!.symbol);
    expect(form("blues-quick-change")).toEqual(bars(chartOf("twelveBarBluesQuickChange")));
    expect(form("two-five-one")).toEqual(bars(chartOf("majorTwoFiveOne")));
    // The basic blues there turns round on V in its last bar; ours stays on I.
    expect(form("blues-basic").slice(0, 11)).toEqual(bars(chartOf("twelveBarBlues")).slice(0, 11));
  });
});
