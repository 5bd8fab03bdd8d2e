/** What sounds under bars after the last chorus: heard where it can be, and said to be in doubt where it cannot. */
import { describe, expect, it } from "vitest";
import { hearTag } from "../../src/harmony/index.ts";
import { OPEN_SOLOS_MISSING } from "../outside/open-solos.ts";
import { type PlacedSolo, placedSolos } from "../outside/placed-solos.ts";
import { written } from "./notation.ts";

const FORM = "C7 | F7 | C7 | C7 | F7 | F7 | C7 | C7 | G7 | F7 | C7 | G7";
const BARS = 12;

/** The notes of bars written after one chorus, with the chords that they are heard over. */
function heard(...bars: readonly string[]) {
  const rests = Array.from({ length: BARS }, () => "").join(" | ");
  const { notes, chart, spans } = written(`${FORM} // ${rests} | ${bars.join(" | ")}`, { idiom: "blues" });
  const tag = notes.map((note) => ({ ...note, chorus: 1, bar: note.bar + BARS, span: spans.length - 1 }));
  const { placed, warnings } = hearTag(tag, chart, spans);
  return { chords: placed.map(({ span }) => spans[span]!.symbol), warnings };
}

// Endings as bands play them: the last chord stays, the form goes round to its first, the last bars come again [practice].
describe("a tag", () => {
  it("goes round to the tonic", () => {
    const { chords, warnings } = heard("E4@1 <C3@1:4 <E3@1:4 <Bb3@1:4 C5@2 G4@3");
    expect(new Set(chords)).toEqual(new Set(["C7"]));
    expect(warnings).toEqual([]);
  });
  it("plays the last two bars again", () => {
    const { chords, warnings } = heard(
      "E4@1 <C3@1:4 <E3@1:4 <G3@1:4 <Bb3@1:4",
      "B4@1 <G2@1:4 <B3@1:4 <F4@1:4 D5@2",
    );
    expect(chords).toEqual(["C7", "C7", "C7", "C7", "C7", "G7", "G7", "G7", "G7", "G7"]);
    expect(warnings).toEqual([]);
  });
  it("stays on the last chord", () => {
    const { chords } = heard("B4@1 <G2@1:4 <B3@1:4 <F4@1:4 D5@2", "G4@1:4 <G2@1:4 <B3@1:4 <F4@1:4");
    expect(new Set(chords)).toEqual(new Set(["G7"]));
  });
  it("is said to be in doubt where the notes fit more than one chord", () => {
    const { warnings } = heard("G4@1 G4@2 G5@3 G4@4");
    expect(warnings.map(({ code }) => code)).toEqual(["tag-in-doubt"]);
    expect(warnings[0]!.message).toMatch(/^What sounds under bar 13, after the last chorus, is in doubt/);
  });
  it("of fewer than four notes decides nothing", () => {
    expect(heard("E4@1 Bb4@2 C5@3").warnings).toHaveLength(1);
    expect(heard("E4@1 Bb4@2 C5@3 E5@4").warnings).toHaveLength(0);
  });
  it("leaves notes within the form as they are", () => {
    const { notes, chart, spans } = written(`${FORM} // E4@1 G4@2`);
    expect(hearTag(notes, chart, spans)).toEqual({ placed: notes, warnings: [] });
  });
});

/** Of tags made of the form's own first or last bars, how many are sure, and of those right in every chord. */
function surely(solo: PlacedSolo, bars: number): { sure: number; right: number } {
  const form = solo.chart.bars.length;
  const counts = { sure: 0, right: 0 };
  for (let chorus = 1; chorus <= Math.max(...solo.notes.map((note) => note.chorus)); chorus++)
    for (const [from, by] of [
      [form - bars, bars],
      [0, form],
    ] as const) {
      const own = solo.notes.filter(
        (note) => note.chorus === chorus && note.bar > from && note.bar <= from + bars && note.bar >= 1,
      );
      if (own.length === 0) continue;
      const tag = own.map((note) => ({ ...note, bar: note.bar + by }));
      const { placed, warnings } = hearTag(tag, solo.chart, solo.spans);
      if (warnings.length > 0) continue;
      const symbol = (span: number) => solo.spans[span]!.symbol;
      counts.sure += 1;
      counts.right += placed.every(({ span }, i) => symbol(span) === symbol(own[i]!.span)) ? 1 : 0;
    }
  return counts;
}

describe.skipIf(OPEN_SOLOS_MISSING !== null)("tags of improvised solos, the line alone", () => {
  it("are right in nine of ten that are sure", () => {
    const long = placedSolos().filter(({ chart }) => chart.bars.length >= BARS);
    const all = long.flatMap((solo) => [surely(solo, 2), surely(solo, 4)]);
    const [sure, right] = [
      all.reduce((sum, one) => sum + one.sure, 0),
      all.reduce((s, one) => s + one.right, 0),
    ];
    expect(sure).toBeGreaterThan(100);
    expect(right / sure).toBeGreaterThanOrEqual(0.9);
  });
});
