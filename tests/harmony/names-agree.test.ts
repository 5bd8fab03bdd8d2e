/**
 * Spelling, degree and words of one note say the same: over every chord, on every degree, in every key, whether the
 * line rises, falls or leaps. What each word means in letters and half steps is a fact of the trade (a flat ninth is
 * the second letter above the root and one half step): any textbook's table of intervals [practice].
 */
import { describe, expect, it } from "vitest";
import { chordSpans, parseChart } from "../../src/chart/index.ts";
import { labelNotes, sentenceFor } from "../../src/harmony/index.ts";
import { labelled, pitchOf, said, written } from "./notation.ts";

/** Letters above the root's and half steps above the root of every name that a sentence may use. */
const INTERVALS: Readonly<Record<string, readonly [number, number]>> = {
  root: [0, 0],
  "flat ninth": [1, 1],
  ninth: [1, 2],
  second: [1, 2],
  "sharp ninth": [1, 3],
  "minor third": [2, 3],
  "blue third": [2, 3],
  "major third": [2, 4],
  fourth: [3, 5],
  eleventh: [3, 5],
  "sharp eleventh": [3, 6],
  "flat fifth": [4, 6],
  "perfect fifth": [4, 7],
  "raised fifth": [4, 8],
  "flat thirteenth": [5, 8],
  sixth: [5, 9],
  thirteenth: [5, 9],
  "diminished seventh": [6, 9],
  "minor seventh": [6, 10],
  "major seventh": [6, 11],
};
/** The same for degrees. */
const DEGREES: Readonly<Record<string, readonly [number, number]>> = {
  "1": [0, 0],
  b9: [1, 1],
  "9": [1, 2],
  "#9": [1, 3],
  b3: [2, 3],
  "3": [2, 4],
  "11": [3, 5],
  "#11": [3, 6],
  b5: [4, 6],
  "5": [4, 7],
  "#5": [4, 8],
  b13: [5, 8],
  "13": [5, 9],
  "6": [5, 9],
  b7: [6, 10],
  "7": [6, 11],
};
const LETTERS = "CDEFGAB";

/** The name so many letters above a root that has the pitch, or null where it takes more than one accidental. */
function nameOf(root: string, letters: number, semitones: number): string | null {
  const letter = LETTERS[(LETTERS.indexOf(root[0]!) + letters) % 7]!;
  const alter = ((((pitchOf(`${root}4`) + semitones - pitchOf(`${letter}4`)) % 12) + 18) % 12) - 6;
  return Math.abs(alter) > 1 ? null : letter + (alter < 0 ? "b" : alter > 0 ? "#" : "");
}

const KEYS = [
  "C",
  "G",
  "D",
  "A",
  "E",
  "B",
  "F#",
  "F",
  "Bb",
  "Eb",
  "Ab",
  "Db",
  "Gb",
  "Am",
  "Em",
  "C#m",
  "Dm",
  "Cm",
  "Bbm",
  "Ebm",
];
const ROOTS = ["C", "Db", "D", "Eb", "E", "F", "F#", "Gb", "G", "Ab", "A", "Bb", "B"];
const KINDS = [
  "",
  "maj7",
  "6",
  "7",
  "7b9",
  "7alt",
  "9sus4",
  "m7",
  "m6",
  "m(maj7)",
  "m7b5",
  "dim7",
  "7#5",
  "maj7#11",
];

describe("spelling, degree and words agree", () => {
  it.each(KEYS)("over every chord and degree in %s", (key) => {
    const wrong: string[] = [];
    for (const root of ROOTS)
      for (const kind of KINDS)
        for (const idiom of ["blues", "standard"] as const)
          for (let semitones = 0; semitones < 12; semitones++)
            for (const step of [1, -1, 5]) {
              const problem = disagreement(key, root + kind, root, idiom, semitones, step);
              if (problem !== null) wrong.push(problem);
            }
    expect(wrong.slice(0, 20)).toEqual([]);
  });

  // B major signs D sharp, B flat major E flat: a tension is written as the key in force has it.
  it.each([
    [5, "D#4", "#5"],
    [-2, "Eb4", "b13"],
  ])("and follow the key that the source has gone to (signature %s)", (fifths, name, degree) => {
    const { notes, chart, spans } = written("G7 | C // B3@1 Eb4@2 B3@3 D4@4 | C4@1", { key: "C" });
    const keys = [
      { tick: -1, fifths: 0, mode: "major" as const },
      { tick: 0, fifths, mode: "major" as const },
    ];
    const labels = labelNotes(notes, chart, spans, keys);
    expect([labels[1]!.spelling, labels[1]!.degree]).toEqual([name, degree]);
  });

  it("and call the seventh of a diminished chord by its name", () => {
    expect(said("C | C#dim7 | Dm7 // E4@1 | *Bb4@1:2 | A4@1")).toContain("the diminished seventh of C#dim7");
    expect(said("C | C#dim7 | Dm7 // E4@4 *A4@4.5 | Bb4@1 | A4@1")).not.toContain("sixth of C#dim7");
  });

  it("say by the degree where an altered tension goes", () => {
    expect(said("G7 | C // B4@4 *Ab4@4.5 | G4@1")).toBe(
      "A flat on the and of 4: the flat ninth of G7, resolving down to the fifth of C.",
    );
    expect(said("G7 | C // D5@4 *Eb5@4.5 | E5@1")).toBe(
      "D sharp on the and of 4: the raised fifth of G7, resolving up to the third of C.",
    );
    expect(said("G7 | Cm // B4@4 *Ab4@4.5 | G4@1", { key: "Cm" })).toContain("the flat ninth of G7");
    expect(said("C7 | F // E4@3 *C#4@3.5 D4@4 F4@4.5 | A4@1", { key: "F" })).toMatch(
      /^C sharp .* an altered tension of C7, a half step above the root/,
    );
    expect(labelled("G7 | C // Ab4@4.5 | G4@1").labels.map((label) => label.altered)).toEqual([true, false]);
  });
});

/** What does not agree in the label and sentence of one note, or null. */
function disagreement(
  key: string,
  symbol: string,
  root: string,
  idiom: "blues" | "standard",
  semitones: number,
  step: number,
): string | null {
  const take = cached(key, symbol, idiom);
  const pitch = pitchOf(`${root}4`) + semitones;
  const notes = take.notes.map((note, i) => ({ ...note, pitch: pitch + (i === 0 ? 0 : step) }));
  const [label] = labelNotes(notes, take.chart, take.spans);
  const name = label!.spelling.replace(/-?\d$/, "");
  const sentence = sentenceFor(notes[0]!, label!, {
    target: null,
    targetLabel: null,
    span: take.spans[0]!,
    nextSpan: take.spans[1]!,
    meter: take.chart.meter,
    finger: null,
    slide: false,
  });
  const facts = `${key} ${symbol} ${idiom} ${step}: ${sentence} (${label!.degree})`;
  const clause = sentence.split(": ")[1]!.split(",")[0]!;
  const word = Object.keys(INTERVALS)
    .filter((each) => new RegExp(`^(the|a) ${each} (of|over|foreign to|outside) `).test(clause))
    .at(0);
  if (word !== undefined) {
    const [letters, size] = INTERVALS[word]!;
    const expected = nameOf(root, letters, semitones);
    if (size !== semitones || (expected !== null && expected !== name)) return facts;
  }
  const [letters] = DEGREES[label!.degree!]!;
  const written = nameOf(root, letters, semitones);
  const isTop = symbol.endsWith("dim7") && semitones === 9;
  const isBlueFifth = label!.role === "blue" && semitones === 6;
  const saysDistance = sentence.includes(" half step") || sentence.includes("whole step");
  return written === null || written === name || isTop || isBlueFifth || saysDistance ? null : facts;
}

const takes = new Map<string, ReturnType<typeof written>>();
function cached(key: string, symbol: string, idiom: "blues" | "standard"): ReturnType<typeof written> {
  const name = `${key} ${symbol} ${idiom}`;
  const known = takes.get(name);
  if (known !== undefined) return known;
  const take = written("C | C // C4@1 C4@1.5", { key, idiom });
  const chart = parseChart(`key: ${key}\nidiom: ${idiom}\n${symbol} | F`);
  const made = { ...take, chart, spans: chordSpans(chart) };
  takes.set(name, made);
  return made;
}
