/**
 * Chord symbols against two parsers and a table that others wrote: tonal 6.4.3, chord-symbol 4.0.0 and the note
 * collections of @musodojo/music-theory-data 28. Where a parser differs, the row says who is right, and by which
 * source.
 */
import { noteCollections } from "@musodojo/music-theory-data";
// @ts-expect-error: the package's types do not cover its module entry.
import { chordParserFactory } from "chord-symbol/lib/chord-symbol-esm.js";
import { Chord as TonalChord, Note as TonalNote } from "tonal";
import { describe, expect, it } from "vitest";
import { parseChord } from "../../src/chart/index.ts";

/** The spellings that charts use. */
const USUAL = [
  ..."C C6 C69 C6/9 Cmaj7 CM7 Cma7 CΔ CΔ7 C^7 Cmaj9 C7 C9 C13 C7b9 C7#9 C7(b9,#11) C7#5#9 C7b13 C9#11 C7b5 C7#5".split(
    " ",
  ),
  ..."C+7 Caug C+ C7alt Calt C7sus C7sus4 C9sus4 C13sus4 Csus2 Cadd9 C5 Cm C- Cmi Cm6 C-7 Cmin7 Cm9 Cm11 C-Δ7".split(
    " ",
  ),
  ..."Cm(maj7) Cmmaj7 Cm7b5 Cø Cø7 Co Cdim Co7 Cdim7 Cmaj7#5 Cmaj7#11".split(" "),
  ..."C11 Cm13 Cmaj13 C7b9b13 C13b9 C13#11 Csus4 Cm69 Cmaj9#11 C7#9b13 C7b5b9 C7b5#9 C7#5b9 C9#5 C9b5 Cmaj7b5".split(
    " ",
  ),
  ..."Cm9b5 Cmadd9 Cdimmaj7 C7sus4b9 C7no3 C7(9,13) Cmb6 Cm7#5".split(" "),
].map((symbol) => symbol.slice(1));

const ROOTS = ["C", "C#", "Db", "D", "D#", "Eb", "E", "F", "F#", "Gb", "G", "G#", "Ab", "A", "A#", "Bb", "B"];

type Classes = string | "unread";
const classes = (semitones: readonly number[]): Classes =>
  [...new Set(semitones.map((tone) => ((tone % 12) + 12) % 12))].sort((a, b) => a - b).join(" ");
const ours = (symbol: string) => {
  const chord = parseChord(symbol)!;
  return classes(chord.tones.map((tone) => tone.semitones + chord.rootClass));
};

/** tonal's own name of the chord where it does not know the spelling. */
const TONAL_NAMES: Readonly<Record<string, string>> = {
  Δ7: "maj7",
  "7(b9,#11)": "7b9#11",
  alt: "7alt",
  mi: "m",
  "m(maj7)": "mMaj7",
  mmaj7: "mMaj7",
  "-Δ7": "mMaj7",
  ø7: "m7b5",
};

/** By tonal: it reads plain b and # only. */
function byTonal(symbol: string): Classes {
  const [, root, kind] = /^([A-G][b#]?)(.*)$/.exec(symbol) ?? [];
  const chord = TonalChord.get(root === undefined ? symbol : root + (TONAL_NAMES[kind!] ?? kind!));
  return chord.empty ? "unread" : classes(chord.notes.map((note) => TonalNote.chroma(note)!));
}

const parseByChordSymbol = chordParserFactory({ notationSystems: ["english"] });
function byChordSymbol(symbol: string): Classes {
  const chord = parseByChordSymbol(symbol);
  if (chord.error) return "unread";
  const root = TonalNote.chroma(chord.normalized.rootNote)!;
  return classes(chord.normalized.semitones.map((tone: number) => tone + root));
}

/** Where a parser reads something else on C than we do. "unread" is no disagreement about the chord. */
const TONAL_DIFFERS: Readonly<Record<string, { tonal: Classes; why: string }>> = {
  "7b13": {
    tonal: "0 4 8 10",
    why: "An altered thirteenth is added and keeps the fifth; #5 is what replaces it (MusicXML 4.0, degree-type add against alter; Mixolydian b13 has both, Nettles & Graf [memory]). tonal itself keeps the fifth in 7b9b13.",
  },
  "7alt": {
    tonal: "0 3 4 8 10",
    why: "Altered means both ninths, #11 and b13 over the seventh chord's root, third and seventh (Levine 1995 [memory]); chord-symbol agrees.",
  },
  alt: { tonal: "0 3 4 8 10", why: "As 7alt." },
  m13: {
    tonal: "0 2 3 7 9 10",
    why: "A minor thirteenth holds the ninth and the eleventh: no clash with a minor third asks to leave it out (MusicXML 4.0, kind minor-13th: all of the stack); chord-symbol agrees.",
  },
  "7b5b9": {
    tonal: "0 1 4 6 7 10",
    why: "b5 replaces the fifth whatever follows it; tonal drops it in 7b5. chord-symbol agrees.",
  },
  "7b5#9": { tonal: "0 3 4 6 7 10", why: "As 7b5b9." },
};

const CHORD_SYMBOL_DIFFERS: Readonly<Record<string, { chordSymbol: Classes; why: string }>> = {
  "7b13": {
    chordSymbol: "0 4 8 10",
    why: "As against tonal: the altered thirteenth is added, it does not replace the fifth.",
  },
  "7b9b13": { chordSymbol: "0 1 4 8 10", why: "As 7b13; tonal agrees with us here." },
  "7#9b13": { chordSymbol: "0 3 4 8 10", why: "As 7b13; tonal agrees with us here." },
};

describe("chord symbols against tonal and chord-symbol", () => {
  for (const kind of USUAL) {
    it(`C${kind}, on 17 roots`, () => {
      const tonal = TONAL_DIFFERS[kind]?.tonal;
      const chordSymbol = CHORD_SYMBOL_DIFFERS[kind]?.chordSymbol;
      if (byTonal(`C${kind}`) !== "unread") expect(byTonal(`C${kind}`)).toBe(tonal ?? ours(`C${kind}`));
      expect(byChordSymbol(`C${kind}`)).toBe(chordSymbol ?? ours(`C${kind}`));
      for (const root of ROOTS) {
        if (tonal === undefined && byTonal(root + kind) !== "unread") {
          expect(byTonal(root + kind), root + kind).toBe(ours(root + kind));
        }
        if (chordSymbol === undefined)
          expect(byChordSymbol(root + kind), root + kind).toBe(ours(root + kind));
      }
    });
  }

  it("agrees about bass notes", () => {
    for (const symbol of ["C/E", "Bb7/D", "F#m7/E", "Ebmaj7/G", "Dm7/C"]) {
      const chord = parseChord(symbol)!;
      expect(TonalChord.get(symbol).bass).toBe(chord.bass);
      expect(parseByChordSymbol(symbol).normalized.bassNote).toBe(chord.bass);
    }
  });

  it("compares all of the usual ones with both, and of the rarer ones most", () => {
    const read = USUAL.map((kind) => byTonal(`C${kind}`) !== "unread");
    expect(read.slice(0, USUAL.indexOf("11"))).not.toContain(false);
    expect(read.filter(Boolean).length).toBeGreaterThan(USUAL.length * 0.75);
    expect(USUAL.every((kind) => byChordSymbol(`C${kind}`) !== "unread")).toBe(true);
  });

  it("every difference is still there: a row that no longer differs must go", () => {
    for (const [kind, { tonal }] of Object.entries(TONAL_DIFFERS)) {
      expect(byTonal(`C${kind}`)).toBe(tonal);
      expect(ours(`C${kind}`)).not.toBe(tonal);
    }
    for (const [kind, { chordSymbol }] of Object.entries(CHORD_SYMBOL_DIFFERS)) {
      expect(byChordSymbol(`C${kind}`)).toBe(chordSymbol);
      expect(ours(`C${kind}`)).not.toBe(chordSymbol);
    }
  });
});

describe("what is no chord", () => {
  // tonal accepts lower-case roots and reads "C^" as a plain major triad; both are silent mistakes.
  it("is refused where a parser would guess", () => {
    expect(byTonal("am7")).not.toBe("unread");
    expect(() => parseChord("am7")).toThrow(/capital/);
    expect(byTonal("C^")).toBe("0 4 7");
    expect(ours("C^")).toBe("0 4 7 11");
  });
});

describe("chord tones against the tables of @musodojo/music-theory-data", () => {
  const SAME: readonly (readonly [kind: string, key: keyof typeof noteCollections])[] = [
    ["", "major"],
    ["6", "major6"],
    ["maj7", "major7"],
    ["maj9", "major9"],
    ["add9", "majorAdd9"],
    ["6/9", "major6Add9"],
    ["m", "minor"],
    ["m6", "minor6"],
    ["m7", "minor7"],
    ["m(maj7)", "minorMajor7"],
    ["m9", "minor9"],
    ["m(add9)", "minorAdd9"],
    ["m6/9", "minor6Add9"],
    ["7", "dominant7"],
    ["9", "dominant9"],
    ["dim", "diminishedTriad"],
    ["dim7", "diminished7"],
    ["m7b5", "halfDiminished7"],
    ["aug", "augmentedTriad"],
    ["7#5", "augmented7"],
    ["maj7#5", "augmentedMajor7"],
    ["5", "rootAndFifth"],
  ];
  for (const [kind, key] of SAME) {
    it(`C${kind} has the tones of "${key}"`, () => {
      expect(ours(`C${kind}`)).toBe(classes(noteCollections[key].integers));
    });
    it(`the names that the table gives "${key}" are read alike`, () => {
      for (const name of noteCollections[key].names) {
        if (/[\s♮]|Power|Triad|Major|Minor|Diminished|Augmented|Sixth|Seventh|Ninth|and|dom/.test(name))
          continue;
        // "Δ" alone is a triad there; jazz charts mean the major seventh (Levine 1995 [memory]).
        if (name === "Δ") continue;
        expect(ours(`C${name}`), name).toBe(classes(noteCollections[key].integers));
      }
    });
  }

  it("leaves out what would clash in the eleventh and thirteenth, where the table stacks thirds", () => {
    // Levine, The Jazz Piano Book, 1989 [memory]: no third in a dominant eleventh, no eleventh in a thirteenth.
    expect(classes(noteCollections.dominant11.integers)).toBe("0 2 4 5 7 10");
    expect(ours("C11")).toBe("0 2 5 7 10");
    expect(classes(noteCollections.dominant13.integers)).toBe("0 2 4 5 7 9 10");
    expect(ours("C13")).toBe("0 2 4 7 9 10");
  });
});

describe("the kinds of MusicXML 4.0", () => {
  // kind-value of the standard with the chord tones that its text gives, as semitones; the symbol that we print.
  const KINDS: readonly (readonly [kind: string, symbol: string, semitones: string])[] = [
    ["major", "C", "0 4 7"],
    ["minor", "Cm", "0 3 7"],
    ["augmented", "Caug", "0 4 8"],
    ["diminished", "Cdim", "0 3 6"],
    ["dominant", "C7", "0 4 7 10"],
    ["major-seventh", "Cmaj7", "0 4 7 11"],
    ["minor-seventh", "Cm7", "0 3 7 10"],
    ["diminished-seventh", "Cdim7", "0 3 6 9"],
    ["augmented-seventh", "Caug7", "0 4 8 10"],
    ["half-diminished", "Cm7b5", "0 3 6 10"],
    ["major-minor", "Cm(maj7)", "0 3 7 11"],
    ["major-sixth", "C6", "0 4 7 9"],
    ["minor-sixth", "Cm6", "0 3 7 9"],
    ["dominant-ninth", "C9", "0 2 4 7 10"],
    ["major-ninth", "Cmaj9", "0 2 4 7 11"],
    ["minor-ninth", "Cm9", "0 2 3 7 10"],
    ["minor-11th", "Cm11", "0 2 3 5 7 10"],
    ["minor-13th", "Cm13", "0 2 3 5 7 9 10"],
    ["suspended-second", "Csus2", "0 2 7"],
    ["suspended-fourth", "Csus4", "0 5 7"],
    ["power", "C5", "0 7"],
  ];
  it.each(KINDS)("%s is %s", (_kind, symbol, semitones) => {
    expect(ours(symbol)).toBe(semitones);
  });
});
