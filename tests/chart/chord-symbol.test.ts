import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Chord, type ChordTone, parseChord } from "../../src/chart/index.ts";
import { Problem } from "../../src/take/index.ts";
import { SPELLINGS } from "./chord-symbols-table.ts";

/** Pitch classes of the note names that charts use, from the keyboard. */
const ROOTS: Readonly<Record<string, number>> = {
  C: 0,
  "C#": 1,
  Db: 1,
  D: 2,
  "D#": 3,
  Eb: 3,
  E: 4,
  Fb: 4,
  "E#": 5,
  F: 5,
  "F#": 6,
  Gb: 6,
  G: 7,
  "G#": 8,
  Ab: 8,
  A: 9,
  "A#": 10,
  Bb: 10,
  B: 11,
  Cb: 11,
  "B#": 0,
};

/** Semitones of the degrees, from any harmony textbook. */
const SEMITONES: Readonly<Record<string, number>> = {
  "1": 0,
  b9: 1,
  "9": 2,
  "#9": 3,
  b3: 3,
  "3": 4,
  "11": 5,
  "#11": 6,
  b5: 6,
  "5": 7,
  "#5": 8,
  b13: 8,
  "13": 9,
  "6": 9,
  b7: 10,
  "7": 11,
};

const read = (text: string): Chord => {
  const chord = parseChord(text);
  if (chord === null) throw new Error(`${text} was read as no chord`);
  return chord;
};
const problemOf = (text: string): Problem => {
  try {
    parseChord(text);
  } catch (error) {
    if (error instanceof Problem) return error;
  }
  throw new Error(`${text} was not refused`);
};
const rising = (degrees: string) => degrees.split(" ").sort((a, b) => SEMITONES[a]! - SEMITONES[b]!);
const glyphs = (text: string) => text.replaceAll("b", "♭").replaceAll("#", "♯");

describe("chord symbols", () => {
  for (const { written, house, degrees, quality } of SPELLINGS) {
    it(`reads ${written.map((kind) => `C${kind}`).join(", ")} as ${degrees}, on every root`, () => {
      for (const kind of written) {
        for (const [root, rootClass] of Object.entries(ROOTS)) {
          // After a root with an accidental "b5" and "b9" could be the root's second flat.
          if (kind.startsWith("b") || kind.startsWith("#")) continue;
          const chord = read(root + kind);
          expect(
            chord.tones.map((tone) => tone.degree),
            root + kind,
          ).toEqual(rising(degrees));
          expect(chord.tones.map((tone) => tone.semitones)).toEqual(rising(degrees).map((d) => SEMITONES[d]));
          expect([chord.root, chord.rootClass, chord.quality]).toEqual([root, rootClass, quality]);
          expect([chord.bass, chord.bassClass]).toEqual([root, rootClass]);
          expect(chord.symbol).toBe(root + house);
          expect(chord.text).toBe(root + kind);
          expect(read(glyphs(root) + kind).symbol).toBe(root + house);
          expect(read(chord.symbol)).toEqual({ ...chord, text: chord.symbol });
        }
      }
    });
  }

  it("marks only the altered dominant as altered", () => {
    for (const { written, house } of SPELLINGS) expect(read(`C${written[0]}`).altered).toBe(house === "7alt");
  });

  it("lets a sixth stand for the seventh and a suspension for the third", () => {
    const roles = (text: string) =>
      read(text).tones.map(({ degree, role }: ChordTone) => `${degree} ${role}`);
    expect(roles("C6")).toEqual(["1 root", "3 third", "5 fifth", "6 seventh"]);
    expect(roles("C7sus4")).toEqual(["1 root", "11 third", "5 fifth", "b7 seventh"]);
    expect(roles("Csus2")).toEqual(["1 root", "9 third", "5 fifth"]);
    expect(roles("Cdim7")).toEqual(["1 root", "b3 third", "b5 fifth", "6 seventh"]);
    expect(roles("C13")).toEqual(["1 root", "9 tension", "3 third", "5 fifth", "13 tension", "b7 seventh"]);
    expect(roles("C7#5")).toEqual(["1 root", "3 third", "#5 fifth", "b7 seventh"]);
    expect(roles("C7alt")).toContain("#11 tension");
  });

  it("takes a bass after the slash, and tells it from a ninth", () => {
    const bass = (text: string) => [read(text).symbol, read(text).bass, read(text).bassClass];
    expect(bass("C/E")).toEqual(["C/E", "E", 4]);
    expect(bass("Bb7/D")).toEqual(["Bb7/D", "D", 2]);
    expect(bass("C7(b9)/E")).toEqual(["C7(b9)/E", "E", 4]);
    expect(bass("Cm7/B♭")).toEqual(["Cm7/Bb", "Bb", 10]);
    expect(bass("C6/9/E")).toEqual(["C69/E", "E", 4]);
    expect(bass("C7 / G")).toEqual(["C7/G", "G", 7]);
    expect(bass("C/Abb")).toEqual(["C/G", "G", 7]);
    expect(bass("C/F##")).toEqual(["C/G", "G", 7]);
    expect(bass("C/C")).toEqual(["C", "C", 0]);
    expect(bass("C6/9")).toEqual(["C69", "C", 0]);
  });

  it("makes roots with two accidentals simple, and takes a flat before a fifth or ninth for an alteration", () => {
    expect(read("Bbb7").symbol).toBe("A7");
    expect(read("F##m7").symbol).toBe("Gm7");
    expect(read("Ebbmaj7").symbol).toBe("Dmaj7");
    expect(read("B𝄫7").symbol).toBe("A7");
    expect(read("Abb5").symbol).toBe("Ab(b5)");
    expect(read("Bbb9").symbol).toBe("Bb(addb9)");
    expect(read("Bbb13").symbol).toBe("Bb(addb13)");
    expect(read("Cb5").symbol).toBe("Cb5");
  });

  it("reads N.C. as no chord", () => {
    for (const text of ["N.C.", "NC", "n.c.", "N.C", " N.C. ", "N. C."]) expect(parseChord(text)).toBeNull();
  });

  it("is forgiving of spaces around it and between its parts", () => {
    expect(read("  F#m11 ").symbol).toBe("F#m11");
    expect(read("C 7").symbol).toBe("C7");
    expect(read("C maj 7").symbol).toBe("Cmaj7");
    expect(read("C7 b9").symbol).toBe("C7(b9)");
    expect(read("C  maj  7  ( b9 ,  #11 )").symbol).toBe("Cmaj7(b9,#11)");
  });

  it("reads what follows an alteration as tensions", () => {
    expect(read("C7b913").symbol).toBe("C7(b9,13)");
    expect(read("C7(#9#5)").symbol).toBe("C7(#5,#9)");
    expect(read("C9b9").symbol).toBe("C7(b9)");
    expect(read("C13#9").symbol).toBe("C7(#9,13)");
    expect(read("C13b13").symbol).toBe("C9(b13)");
    expect(read("Cm11#11").symbol).toBe("Cm9(#11)");
  });

  it("keeps the third of a major eleventh, and the eleventh under a bass", () => {
    expect(read("Cmaj11").symbol).toBe("Cmaj9(11)");
    expect(read("Cm(maj11)").symbol).toBe("Cm(maj11)");
    expect(read("C(maj13)").symbol).toBe("Cmaj13");
    expect(read("C5add9").symbol).toBe("C(add9,no3)");
    expect(read("C5addb9").symbol).toBe("C(addb9,no3)");
  });

  it("takes symbols of up to forty characters", () => {
    expect(read(`C7(b9${" ".repeat(34)})`)).toMatchObject({ symbol: "C7(b9)" });
    expect(problemOf(`C7(b9${" ".repeat(35)})`).message).toMatch(/too long/);
  });

  it("says a tone only once", () => {
    expect(read("C7b5#11").symbol).toBe("C7(b5)");
    expect(read("C7#5b13").symbol).toBe("C7(#5)");
    expect(read("Csus4add11").symbol).toBe("Csus4");
    expect(read("Csus2add9").symbol).toBe("Csus2");
    expect(read("C6add13").symbol).toBe("C6");
    expect(read("C7altb9").symbol).toBe("C7alt");
    expect(read("Csus4sus4").symbol).toBe("Csus4");
  });

  it("refuses what is not a chord, and says what it could not read and what was expected", () => {
    const refused: readonly (readonly [string, RegExp])[] = [
      ["", /it is empty/],
      ["   ", /it is empty/],
      ["H7", /does not start with a root A to G/],
      ["7", /does not start with a root A to G/],
      ["bb7", /not a capital letter/],
      ["c", /not a capital letter/],
      ["am7", /not a capital letter/],
      ["Cfoo", /"foo" cannot be read/],
      ["Cmaj8", /"8" cannot be read/],
      ["C77", /"7" cannot be read/],
      ["C99", /"9" cannot be read/],
      ["C7(99)", /"9\)" cannot be read/],
      ["C7(913)", /"13\)" cannot be read/],
      ["CE", /"E" cannot be read/],
      ["CmE", /"E" cannot be read/],
      ["C4", /"4" cannot be read/],
      ["C8", /"8" cannot be read/],
      ["Cm5", /"5" cannot follow here/],
      ["Cmaj5", /"5" cannot follow here/],
      ["Cm2", /"2" cannot follow here/],
      ["Cdim6", /"6" cannot follow here/],
      ["C+6", /"6" cannot follow here/],
      ["CΔ6/9", /"6\/9" cannot follow here/],
      ["Cø6", /"6" cannot follow here/],
      ["C7(b9", /brackets do not match/],
      ["C7b9)", /brackets do not match/],
      ["C7)(b9", /brackets do not match/],
      ["Cm7#9", /sharp ninth is its minor third/],
      ["C7b11", /"b11" cannot be read/],
      ["C7#13", /"#13" cannot be read/],
      ["Cm7sus4", /"sus4" cannot be read/],
      ["Cm7alt", /"alt" cannot be read/],
      ["C7sus4alt", /"alt" cannot be read/],
      ["Cmaj7alt", /"alt" cannot be read/],
      ["C/H", /"H" cannot be read/],
      ["Hello", /root A to G/],
      ["Dog", /"og" cannot be read|cannot be read/],
      [`C7${"(b9)".repeat(20)}`, /too long/],
    ];
    for (const [text, reason] of refused) {
      const problem = problemOf(text);
      expect(problem.code).toBe("not-a-chord");
      expect(problem.message, text).toMatch(reason);
      expect(problem.message).toContain(`"${text.trim().slice(0, 40)}" is not a chord`);
      expect(problem.todo).toMatch(/capital root A to G.*C7, F#m7b5, Bbmaj7/);
      expect(problem.where).toBeNull();
    }
  });

  it("never fails in another way, whatever is typed", () => {
    fc.assert(
      fc.property(
        fc.oneof(fc.string(), fc.string({ unit: fc.constantFrom(..."CFBb#♭Δø°+-()/,79135susmajdimalt ") })),
        (text) => {
          try {
            const chord = parseChord(text);
            if (chord !== null) expect(parseChord(chord.symbol)?.symbol).toBe(chord.symbol);
          } catch (error) {
            expect(error).toBeInstanceOf(Problem);
          }
        },
      ),
      { numRuns: 3000, seed: 4 },
    );
  });

  it("prints every chord that it reads so that it reads the same again", () => {
    const kind = fc
      .tuple(
        fc.constantFrom("", "m", "maj", "dim", "aug", "ø", "sus4", "sus2"),
        fc.constantFrom("", "6", "69", "7", "9", "11", "13"),
        fc.uniqueArray(
          fc.constantFrom(
            "b5",
            "#5",
            "b9",
            "#9",
            "#11",
            "b13",
            "13",
            "9",
            "11",
            "no3",
            "no5",
            "maj7",
            "sus4",
          ),
          { maxLength: 4 },
        ),
      )
      .map(([head, number, extras]) =>
        head.startsWith("sus")
          ? `${number}${head}(${extras.join(",")})`
          : `${head}${number}(${extras.join(",")})`,
      );
    let read = 0;
    fc.assert(
      fc.property(
        fc.constantFrom(...Object.keys(ROOTS)),
        kind,
        fc.constantFrom("", "/E", "/Bb"),
        (root, text, bass) => {
          let chord: Chord | null;
          try {
            chord = parseChord(root + text + bass);
          } catch {
            return;
          }
          read += 1;
          const again = parseChord(chord!.symbol);
          expect({ ...again, text: "" }).toEqual({ ...chord, text: "" });
        },
      ),
      { numRuns: 4000, seed: 11 },
    );
    expect(read).toBeGreaterThan(1000);
  });
});
