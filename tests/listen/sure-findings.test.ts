/** Findings on how phrases begin, end and breathe, where some of their notes were not heard surely. */
import { describe, expect, test } from "vitest";
import { allFindings } from "../../src/findings/find-findings.ts";
import { SURE } from "../../src/take/sure.ts";
import { accountOf, type Written } from "../findings/account-builder.ts";

const PHRASES = 8;
const NOTES = 4;

/** Eight phrases of four eighths on the first beat, each followed by two beats of silence. */
function phrases(certainty: (phrase: number, note: number) => number): Written[] {
  return Array.from({ length: PHRASES * NOTES }, (_, i) => {
    const [phrase, note] = [Math.floor(i / NOTES), i % NOTES];
    return { at: phrase * 4 + note / 2, pitch: 65 + note, beats: 0.5, certainty: certainty(phrase, note) };
  });
}

const said = (notes: readonly Written[], rests: number) =>
  new Map(allFindings(accountOf({ notes, over: { rhythm: { rests } } })).map((one) => [one.id, one]));

const LAST = NOTES - 1;

describe("silence", () => {
  test("is told after every phrase whose notes were all heard surely", () => {
    const finding = said(
      phrases(() => 1),
      0.4,
    ).get("rests-breathe");
    expect(finding?.observed).toBe(0.4);
    // After the last phrase nothing follows, so that no silence is told there.
    expect(finding?.evidence).toHaveLength(PHRASES - 1);
  });

  test("is not told where a note that was not heard surely ends the phrase", () => {
    // Two of seven silences follow such a note: five sevenths of .4 are left.
    const unsure = said(
      phrases((phrase, note) => (phrase < 2 && note === LAST ? SURE - 0.01 : 1)),
      0.4,
    ).get("rests-breathe");
    // Observed values are told to a thousandth.
    expect(unsure?.observed).toBeCloseTo((0.4 * 5) / 7, 3);
    expect(unsure?.evidence).toEqual(["n12", "n16", "n20", "n24", "n28"]);
  });

  test("is not told where the next phrase begins with one", () => {
    const unsure = said(
      phrases((phrase, note) => (phrase > 0 && phrase < 3 && note === 0 ? SURE - 0.01 : 1)),
      0.4,
    ).get("rests-breathe");
    expect(unsure?.evidence).toEqual(["n12", "n16", "n20", "n24", "n28"]);
  });

  test("is not told at all when too little of it is sure", () => {
    // Three of seven are left: .17, less than the quarter that the rule asks for.
    const half = phrases((phrase, note) => (phrase < 4 && note === LAST ? SURE - 0.01 : 1));
    expect(said(half, 0.4).has("rests-breathe")).toBe(false);
  });
});

describe("the beat on which phrases start", () => {
  test("is that of notes which were heard surely and begin a phrase", () => {
    const all = said(
      phrases(() => 1),
      0.4,
    ).get("phrase-starts-alike");
    expect(all?.evidence).toHaveLength(PHRASES);
    const some = said(
      phrases((phrase, note) => (phrase === 0 && note === 0 ? SURE - 0.01 : 1)),
      0.4,
    ).get("phrase-starts-alike");
    // The second note of the first phrase is its first sure one, and starts nothing.
    expect(some?.evidence).toEqual(["n5", "n9", "n13", "n17", "n21", "n25", "n29"]);
  });
});
