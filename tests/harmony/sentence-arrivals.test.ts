/**
 * What is said of a chord tone: how the line comes to it, and what it resolves. The words of the trade are those of
 * Kostka & Payne [memory]; each example shows a line of which the words are true.
 */
import { describe, expect, it } from "vitest";
import { type Setting, said } from "./notation.ts";

interface Arrival {
  readonly why: string;
  readonly text: string;
  /** Said after the chord, in one chorus or another: all ways, and no other. */
  readonly ways: readonly string[];
  readonly setting?: Setting;
}

const GUIDE = ["a guide tone just as the chord arrives", "which spells out the change"];
const STRONG = ["a guide tone on a strong beat", "a guide tone where the bar is strong"];
const DOWNBEAT = ["square on the downbeat", "planted on the bar line", "at home as the bar begins"];
const PASSED = ["where the passing note was heading", "reached through the passing note"];

const ARRIVALS: readonly Arrival[] = [
  { why: "the third on the first beat of its chord", text: "Dm7 | G7 // C4@4.5 | *B3@1", ways: GUIDE },
  { why: "the chord was there before", text: "G7 | G7 // D4@4.5 | *B3@1", ways: STRONG },
  {
    why: "the chord was there before, and another comes after",
    text: "G7 | G7 | C // D4@4.5 | *B3@1",
    ways: STRONG,
  },
  {
    why: "what led to it is said before its strong place",
    text: "G7 | G7 // G3@4 A3@4.5 | *B3@1",
    ways: PASSED,
  },
  { why: "beat 3 is strong", text: "C7 // G4@1 *E4@3", ways: STRONG },
  {
    why: "beat 2 is not",
    text: "C7 // G4@1 *E4@2",
    ways: ["a third down the chord", "down the chord by a third"],
  },
  { why: "the root on the first beat", text: "C | C // E4@4.5 | *C4@1", ways: DOWNBEAT },
  {
    why: "the root on beat 3",
    text: "C // E4@1 *C4@3",
    ways: ["a third down the chord", "down the chord by a third"],
  },
  {
    why: "the fifth on the first beat",
    text: "C | C // E4@4.5 | *G4@1",
    ways: ["a third up the chord", "up the chord by a third"],
  },
  {
    why: "after an anticipation",
    text: "G7 | C // D4@4 C4@4.5 | *C4@1",
    ways: ["struck again now that the chord is here", "confirming what was struck early"],
  },
  {
    why: "after a suspension",
    text: "G7 | C // F4@4 | F4@1 *E4@2",
    ways: ["the resolution of the suspension", "where the suspension gives way"],
  },
  {
    why: "after an enclosure",
    text: "C // F4@1 D#4@1.5 *E4@2",
    ways: ["where the enclosure closes", "the note that was enclosed"],
  },
  {
    why: "after an approach",
    text: "C // C4@1 F#4@1.5 *G4@2",
    ways: ["where the approach was leading", "the goal of the approach"],
  },
  { why: "after a passing note", text: "C // C4@1 D4@1.5 *E4@2", ways: PASSED },
  {
    why: "after a neighbour note",
    text: "C // G4@1 A4@1.5 *G4@2",
    ways: ["home again after the neighbour note", "back where the neighbour note set out"],
  },
  {
    why: "after an appoggiatura",
    text: "C // C4@1 F4@2 *E4@2.5",
    ways: ["the resolution of the appoggiatura", "where the leaning note settles"],
  },
  { why: "repeated", text: "C // G4@1 *G4@2", ways: ["struck again", "the same note once more"] },
  { why: "the first note", text: "C // *G4@2", ways: ["where the line sets out", "opening the line"] },
  {
    why: "after a breath",
    text: "C // C4@1:0.5 *G4@4",
    ways: ["where the line sets out", "opening the line"],
  },
  {
    why: "a whole step between chord tones",
    text: "C7 // Bb4@1 *C5@2",
    ways: ["a whole step up the line", "reached by step from below"],
  },
  {
    why: "a half step between chord tones",
    text: "Cmaj7 // C5@1 *B4@2",
    ways: ["a half step down the line", "reached by step from above"],
  },
  {
    why: "a leap in one chord",
    text: "C // G4@1 *C4@2",
    ways: ["a fifth down the chord", "down the chord by a fifth"],
  },
  {
    why: "a tenth",
    text: "C // C4@1 *E5@2",
    ways: ["more than an octave up the chord", "up the chord by more than an octave"],
  },
  {
    why: "a leap from a note of another chord",
    text: "Dm7 | C // A4@4.5 | *C4@2",
    ways: ["a leap of a sixth down", "a sixth down from the note before"],
  },
  {
    why: "a leap from a note that is no chord tone",
    text: "C // D4@1 *G4@2",
    ways: ["a leap of a fourth up", "a fourth up from the note before"],
  },
  {
    why: "to a note that is led to by another voice, the line leaps all the same",
    text: "C // C5@1 E4@1.5 *G4@2",
    ways: ["a third up the chord", "up the chord by a third"],
  },
  {
    why: "no chord, no arpeggio, no guide tone, no root",
    text: "N.C. | N.C. // E4@4.5 | *C4@1",
    ways: ["a leap of a third down", "a third down from the note before"],
  },
  {
    why: "without a chord nothing arrives",
    text: "C | N.C. // C5@4.5 | *E4@1",
    ways: ["a leap of a sixth down", "a sixth down from the note before"],
  },
];

/** The last clauses of the sentence, in the note's own chorus and in five more. */
function clauses(text: string, setting: Setting | undefined): Set<string> {
  return new Set(
    [0, 1, 2, 3, 4, 5].map((later) =>
      said(text, { ...setting, later })
        .replace(/^[^:]*: the [a-z ]+ of [^,]*, (no chord beneath it, )?/, "")
        .replace(/\.$/, ""),
    ),
  );
}

describe("what is said of a chord tone", () => {
  it.each(ARRIVALS)("$text: $why", ({ text, setting, ways }) => {
    expect(clauses(text, setting)).toEqual(new Set(ways));
  });
});
